// @ts-check
/** Beneath each length box: what is understood while it is typed, or the question that its answer raises. */

import { boxesOf, kindOf, lengthBox, unitOf } from "./length_boxes.js";
import { readAs, understood } from "./lengths.js";
import { offerUnitKeys } from "./unit_keys.js";

/** Short enough to seem at once, long enough that half a number is seldom asked about. */
const PAUSE_MS = 150;

/** @typedef {import("./length_boxes.js").Box} Box */

/**
 * Watch the boxes of a form, also those that are added to it later.
 *
 * @param {HTMLFormElement} form
 */
export function watchLengths(form) {
  /** @type {Map<Box, ReturnType<typeof setTimeout>>} */
  const waiting = new Map();

  /** @param {Box} box */
  function tellNow(box) {
    clearTimeout(waiting.get(box));
    waiting.delete(box);
    if (box.isConnected) tell(box);
  }

  form.addEventListener("input", ({ target }) => {
    const box = lengthBox(target);
    if (!box) return;
    clearTimeout(waiting.get(box));
    waiting.set(box, setTimeout(() => tellNow(box), PAUSE_MS));
  });
  form.addEventListener("change", ({ target }) => {
    const box = lengthBox(target);
    if (box) tellNow(box);
  });
  // The office's words come back for what was sent a while ago; the box that is being typed in knows better.
  document.addEventListener("htmx:afterSettle", () => {
    const box = lengthBox(document.activeElement);
    if (box && form.contains(box)) tell(box);
  });
  for (const box of boxesOf(form)) offer(box, readAs(kindOf(box), box.value, unitOf(box)).asks);
  offerUnitKeys(form);
}

/**
 * Set the unit of bare numbers in a page that was kept on the tablet before its survey was known.
 *
 * @param {HTMLFormElement} form
 * @param {string} unit mm, cm, m, ft, in or ask
 */
export function setLengthUnit(form, unit) {
  form.dataset.lengthUnit = unit;
  const rows = [...form.querySelectorAll("template")].map((template) => template.content);
  for (const part of [form, ...rows]) {
    for (const place of part.querySelectorAll("[data-reads] + .field__unit")) {
      const said = place.matches("[data-reads=opening] + *") ? "of gap" : "unless you say";
      place.textContent = unit === "ask" ? "write the unit" : `${unit} ${said}`;
    }
  }
  for (const box of boxesOf(form)) if (box.value) tell(box);
}

/** @param {Box} box */
function tell(box) {
  const [kind, unit] = [kindOf(box), unitOf(box)];
  const { asks, error } = readAs(kind, box.value, unit);
  const words = document.getElementById(`${box.id}_understood`);
  if (words) {
    const told = document.createElement(error ? "strong" : "span");
    told.textContent = understood(kind, box.value, unit);
    words.replaceChildren(...(told.textContent ? [told] : []));
  }
  document.getElementById(`${box.id}_error`)?.setAttribute("hidden", "");
  box.closest(".field")?.classList.toggle("field--error", error !== "");
  if (error) box.setAttribute("aria-invalid", "true");
  else box.removeAttribute("aria-invalid");
  offer(box, asks);
}

/**
 * Offer each way to write an answer that has one meaning, large enough for a glove.
 *
 * @param {Box} box
 * @param {string[]} asks
 */
function offer(box, asks) {
  const field = box.closest(".field");
  const before = field?.querySelector(".asks");
  const offered = [...(before?.children ?? [])].map((way) => way.textContent);
  if (String(offered) === String(asks)) return; // somebody may be on the way to one with the keyboard
  before?.remove();
  if (!field || asks.length === 0) return;
  const ways = document.createElement("div");
  ways.className = "asks";
  ways.setAttribute("role", "group");
  ways.setAttribute("aria-label", "Write it as");
  ways.append(...asks.map((way) => wayButton(box, way)));
  field.append(ways);
  if (document.activeElement === box) ways.scrollIntoView({ block: "nearest" }); // not under the foot bar
}

/** @param {Box} box @param {string} way */
function wayButton(box, way) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button asks__way";
  button.textContent = way;
  button.addEventListener("pointerdown", (event) => event.preventDefault()); // the box keeps its keypad
  button.addEventListener("click", () => {
    box.value = way;
    if (document.activeElement === button) box.focus();
    box.dispatchEvent(new Event("input", { bubbles: true }));
    box.dispatchEvent(new Event("change", { bubbles: true }));
  });
  return button;
}
