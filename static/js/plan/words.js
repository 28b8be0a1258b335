// @ts-check
/** What is said of things on the plan, in the words of the trade, figures as drawings write them. */

import { boundsOf } from "./shapes.js";

const THIN = "\u00a0";

/** @param {number} mm @returns {string} 3 730, the space one that never breaks the line */
export function figure(mm) {
  return String(Math.round(mm)).replace(/\B(?=(\d{3})+$)/g, THIN);
}

/** @param {number} mm @returns {string} 3 730 mm */
export function inWords(mm) {
  return `${figure(mm)}${THIN}mm`;
}

/** @param {string} words @returns {string} */
export function capital(words) {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}

/** @param {import("./read.js").Thing} thing @returns {string} what it is called on its own */
export function calledOf(thing) {
  switch (thing.kind) {
    case "outline":
      return "Outline of the loft";
    case "hatch":
      return "Hatch";
    case "joists":
      return thing.name || "Joist field";
    case "zones":
      return thing.name || "Deck";
    default:
      return thing.name || capital(thing.what || "keep-out");
  }
}

/** @param {import("./read.js").Thing} thing @returns {string} its name with its figures, to be read aloud */
export function nameOf(thing) {
  const called = calledOf(thing);
  if (thing.kind === "joists") {
    const lines = thing.lines || [];
    const way = thing.runs === "x" ? "left to right" : "front to back";
    const from = thing.runs === "x" ? "front eaves" : "left gable";
    const counted = lines.length
      ? `${lines.length} joists, ${spacingInWords(lines)}, the first ${inWords(lines[0])} from ${from}`
      : "joists not measured yet";
    return `${called}, joists ${way}, ${counted}`;
  }
  if (!thing.polygon) {
    return `${called}, not drawn yet`;
  }
  const box = boundsOf(thing.polygon);
  const shape = thing.polygon.length === 4 ? "" : `, ${thing.polygon.length} corners`;
  const size = `${figure(box.right - box.left)} by ${inWords(box.back - box.front)}`;
  if (thing.kind === "outline") {
    return `${called}, ${size} over all${shape}`;
  }
  const where = `${inWords(box.left)} from left gable, ${inWords(box.front)} from front eaves`;
  return `${called}, ${size}${shape}, ${where}`;
}

/** @param {number[]} lines [mm] @returns {string} */
export function spacingInWords(lines) {
  const gaps = new Set(lines.slice(1).map((line, place) => line - lines[place]));
  return gaps.size === 1 ? `at ${inWords([...gaps][0])} centres` : "at uneven centres";
}
