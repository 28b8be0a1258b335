// @ts-check
/** The twin of estimating/lengths/words.py, and what the boxes say of what they read. */

import { HARD_SPACE } from "./text.js";

/**
 * Write millimetres as drawings do: 3 730 mm, the spaces such that never break the line.
 *
 * @param {number} lengthMm
 */
export function inWords(lengthMm) {
  return `${grouped(lengthMm)}${HARD_SPACE}mm`;
}

/** @param {number} number whole and not less than 0 */
export function grouped(number) {
  return String(number).replace(/\B(?=(?:[0-9]{3})+$)/g, HARD_SPACE);
}

/** @param {string[]} readings */
export function either(readings) {
  const told = readings.map((way) => (way.includes(",") ? `“${way}”` : way));
  const last = told.pop();
  return told.length ? `${told.join(", ")} or ${last}` : String(last);
}

/** @param {number[]} lengthsMm */
export function sayLengths(lengthsMm) {
  return `${lengthsMm.length} lengths: ${lengthsMm.map(inWords).join(", ")}`;
}

/** @param {number[]} offsetsMm */
export function sayOffsets(offsetsMm) {
  const told = offsetsMm.map((each) => `${each > 0 ? "+" : each < 0 ? "-" : ""}${inWords(Math.abs(each))}`);
  return `${offsetsMm.length} readings: ${told.join(", ")}`;
}

/** @param {[number, number][]} cornersMm */
export function sayCorners(cornersMm) {
  const [lengthMm, depthMm] = [0, 1].map((axis) => {
    const along = cornersMm.map((corner) => corner[axis]);
    return Math.max(...along) - Math.min(...along);
  });
  return `${cornersMm.length} corners, ${inWords(lengthMm)} × ${inWords(depthMm)} over all`;
}
