/** Rows of the plan's table, made and emptied on the page itself. A row's number is never given twice. */

const NEW_NUMBERS = 1_000_000;
const ROW_NAME = /^(joists|keep_outs|zones)-(\d+)-(\w+)$/;

/** Return what a box's name says of its row, or null for one that belongs to no row. */
export function rowOf(name) {
  const found = ROW_NAME.exec(name);
  return found && { kind: found[1], number: Number(found[2]), field: found[3] };
}

/** Return a number that no row of a kind has; by chance, so that two tablets do not choose the same. */
export function newNumber(form, kind) {
  const numbers = [...form.elements].map((box) => rowOf(box.name)).filter((row) => row?.kind === kind);
  const greatest = Math.max(-1, ...numbers.map((row) => row.number));
  const [chance] = crypto.getRandomValues(new Uint32Array(1));
  return greatest + 1 + (chance % NEW_NUMBERS);
}

/** Add an empty row of a kind and return it. */
export function addRow(form, kind, number = newNumber(form, kind)) {
  const template = form.querySelector(`template[data-row="${kind}"]`);
  const holder = document.createElement("template");
  holder.innerHTML = template.innerHTML.replaceAll("__n__", String(number));
  const row = holder.content.querySelector(".row");
  template.before(row);
  countRows(form, kind);
  return row;
}

/** Return the row of a kind and number, made if it is not there. */
export function ensureRow(form, kind, number) {
  return form.querySelector(`[name^="${kind}-${number}-"]`)?.closest(".row") ?? addRow(form, kind, number);
}

/** Empty every box of a row and put it out of sight; returns the boxes that were emptied. */
export function emptyRow(row) {
  const emptied = [];
  for (const box of row.querySelectorAll("input, textarea, select")) {
    if (rowOf(box.name)?.field === "DELETE") continue;
    const said = box.type === "radio" ? box.checked : box.value !== "";
    if (box.type === "radio") box.checked = false;
    else box.value = "";
    if (said) emptied.push(box);
  }
  row.hidden = true;
  return emptied;
}

/** Call the rows in sight by their places: Deck zone 1, Deck zone 2. */
function countRows(form, kind) {
  const rows = form.querySelectorAll(`template[data-row="${kind}"]`)[0].parentElement.querySelectorAll(".row:not([hidden])");
  rows.forEach((row, place) => {
    const name = row.querySelector(".row__name");
    name.textContent = `${name.textContent.replace(/\s*\d*\s*$/, "")} ${place + 1}`;
  });
}

/** Let the buttons that add and remove rows work without asking the office. */
export function watchRows(form) {
  form.addEventListener("click", (event) => {
    const [act, kind] = event.target.closest("button")?.value?.split(" ") ?? [];
    if (act !== "add" || !form.querySelector(`template[data-row="${kind}"]`)) return;
    event.preventDefault();
    event.stopPropagation();
    addRow(form, kind).querySelector("input:not([type=hidden])")?.focus();
  }, { capture: true });
  form.addEventListener("change", (event) => {
    const row = rowOf(event.target.name);
    if (row?.field !== "DELETE" || !event.target.checked) return;
    event.target.checked = false;
    for (const box of emptyRow(event.target.closest(".row"))) {
      box.dispatchEvent(new Event("change", { bubbles: true }));
    }
    countRows(form, row.kind);
  });
}
