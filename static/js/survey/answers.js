/** The boxes of a page as names and texts, the form in which answers are kept and sent. */

import { ensureRow, rowOf } from "./rows.js";

const OURS = new Set(["csrfmiddlewaretoken", "act", "as_shown"]);

/** Return what stands in the boxes: name -> text, "" for a question that has no answer. */
export function valuesOf(form) {
  const values = {};
  for (const box of form.elements) {
    if (!isAnswer(box)) continue;
    if (box.type === "radio") values[box.name] = box.checked ? box.value : (values[box.name] ?? "");
    else values[box.name] = box.value;
  }
  return values;
}

/** Return what the boxes said when the page came: somebody may have typed before a script was there to see. */
export function valuesAsShown(form) {
  const values = {};
  for (const box of form.elements) {
    if (!isAnswer(box)) continue;
    if (box.type === "radio") values[box.name] = box.defaultChecked ? box.value : (values[box.name] ?? "");
    else if (box.options) values[box.name] = [...box.options].find((each) => each.defaultSelected)?.value ?? box.options[0].value;
    else values[box.name] = box.defaultValue;
  }
  return values;
}

/** Write an answer into its box, if the page asks that question; a row that is not there is made. */
export function setValue(form, name, text) {
  const row = rowOf(name);
  if (row && text && form.querySelector(`template[data-row="${row.kind}"]`)) {
    ensureRow(form, row.kind, row.number).hidden = false;
  }
  const boxes = [...form.elements].filter((box) => box.name === name && isAnswer(box));
  for (const box of boxes) {
    if (box.type === "radio") box.checked = box.value === text;
    else box.value = text;
  }
  const box = boxes.at(-1);
  if (text) for (let fold = box?.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  box?.dispatchEvent(new Event("input", { bubbles: true }));
}

/** Return what changed between two sets of answers: name -> [before, after]. */
export function changesBetween(before, after) {
  return Object.fromEntries(
    Object.keys(after)
      .filter((name) => (before[name] ?? "") !== after[name])
      .map((name) => [name, [before[name] ?? "", after[name]]]),
  );
}

function isAnswer(box) {
  return Boolean(box.name) && !box.disabled && !OURS.has(box.name) && rowOf(box.name)?.field !== "DELETE" &&
    !["file", "submit", "button", "fieldset"].includes(box.type);
}
