// @ts-check
/** Uneven joists: centres one after another, tapped on the plan or beside it. */

import { LEAST_CENTRE_MM, MOST_CENTRE_MM } from "./centres.js";
import { stepped } from "./snapping.js";
import { inWords } from "./words.js";

/** @typedef {import("./plan_editor.js").PlanEditor} PlanEditor */
/** @typedef {import("./read.js").Thing} Thing */

const FINE_ENOUGH = 0.2; // px a mm from which a finger can tell 5 mm

/** @param {Thing} field @returns {number[]} [mm] */
export function spacingsOf(field) {
  const lines = field.lines || [];
  return lines.slice(1).map((line, place) => line - lines[place]);
}

/**
 * Change the list of centres.
 *
 * @param {PlanEditor} editor @param {Thing} field @param {(spacings: number[]) => number[]} how
 */
export function changeSpacings(editor, field, how) {
  const spacings = how(spacingsOf(field));
  const words = `${spacings.length + 1} joists, the last centre ${inWords(spacings.at(-1) || 0)}.`;
  const first = field.first === null ? { first: 0 } : {};
  editor.change(field, { spacings: /** @type {any} */ (spacings), ...first }, spacings.length ? words : "No centres.");
}

/** @param {PlanEditor} editor @param {Thing} field @param {"even" | "spacings"} how */
export function changeHow(editor, field, how) {
  const spacings = spacingsOf(field);
  if (how === "spacings") {
    const first = spacings[0] || field.centres || 400;
    editor.change(field, { centres: "", count: "", readings: "", spacings: /** @type {any} */ ([first]) },
      "Centres one after another: type them, press Same again, or tap the next joist on the plan.");
  } else {
    const mean = spacings.length ? Math.round(spacings.reduce((a, b) => a + b, 0) / spacings.length) : 400;
    editor.change(field, { spacings: "", readings: "", centres: mean, count: Math.max(2, spacings.length + 1) },
      "Even centres.");
  }
}

/** @param {PlanEditor} editor @param {[number, number]} at [mm] @returns {boolean} whether the tap was the next joist */
export function tapNext(editor, at) {
  const field = editor.thing(editor.chosen);
  const last = field && field.how === "spacings" ? (field.lines || []).at(-1) : undefined;
  if (!field || last === undefined) {
    return false;
  }
  const gap = at[field.runs === "x" ? 1 : 0] - last;
  const mm = editor.view.scale < FINE_ENOUGH ? stepped(gap) : Math.round(gap / 5) * 5;
  if (mm < LEAST_CENTRE_MM || mm > MOST_CENTRE_MM) {
    return false;
  }
  changeSpacings(editor, field, spacings => [...spacings, mm]);
  return true;
}
