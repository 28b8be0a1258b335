// @ts-check
/** The boxes of the form, which are the only truth: what stands in them, and setting them. */

/** @typedef {Map<string, string>} Values what stands in each box, by its name */

import { rowOf } from "../survey/rows.js";

const NOT_ANSWERS = new Set(["", "act"]);

/** @param {string} name @returns {{kind: string, number: number, field: string} | null} */
export function rowName(name) {
  return rowOf(name);
}

/** @param {HTMLFormElement} form @returns {Values} */
export function valuesOf(form) {
  /** @type {Values} */
  const values = new Map();
  for (const box of /** @type {Iterable<HTMLInputElement>} */ (form.elements)) {
    if (NOT_ANSWERS.has(box.name) || box.type === "hidden" || box.tagName === "FIELDSET" || box.tagName === "BUTTON") {
      continue;
    }
    if (box.type === "radio" || box.type === "checkbox") {
      const answer = box.checked ? box.value : values.get(box.name) || "";
      values.set(box.name, answer);
    } else {
      values.set(box.name, box.value);
    }
  }
  return values;
}

/** @param {HTMLFormElement} form @param {string} name @returns {HTMLInputElement[]} the boxes of one answer */
export function boxesOf(form, name) {
  const found = form.elements.namedItem(name);
  if (!found) {
    return [];
  }
  return /** @type {HTMLInputElement[]} */ (found instanceof Element ? [found] : [...found]);
}

/**
 * Set one answer without telling anybody yet.
 *
 * @param {HTMLFormElement} form @param {string} name @param {string} answer
 * @returns {HTMLInputElement | null} the box that changed, or null if nothing did
 */
export function setAnswer(form, name, answer) {
  const boxes = boxesOf(form, name);
  const [first] = boxes;
  if (!first) {
    return null;
  }
  if (first.type !== "radio" && first.type !== "checkbox") {
    if (first.value === answer) {
      return null;
    }
    first.value = answer;
    unfold(first);
    return first;
  }
  let changed = null;
  for (const box of boxes) {
    const wanted = answer !== "" && box.value === answer;
    if (box.checked !== wanted) {
      box.checked = wanted;
      changed = wanted || !changed ? box : changed;
    }
  }
  return changed;
}

/** Open what is folded away round a box that now says something. @param {HTMLElement} box */
function unfold(box) {
  const fold = box.closest("details");
  if (fold && /** @type {HTMLInputElement} */ (box).value) {
    fold.open = true;
  }
}

/** Tell whoever listens that a box was changed. @param {HTMLInputElement} box */
export function tellChanged(box) {
  box.dispatchEvent(new Event("change", { bubbles: true }));
}
