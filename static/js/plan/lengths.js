// @ts-check
/** Lengths as the plan needs them: read once, remembered, and lists and corners of them. */

import { readAs } from "../survey/lengths.js";

/** @typedef {{ok: true, mm: number} | {ok: false, asks: string}} Read one length, or what is asked about it */

const MOST_KNOWN = 5000;

/** What was read before: a plan is read at every move of a finger. @type {Map<string, any>} */
const known = new Map();

/** @param {string} kind @param {string} typed @param {string} unit @returns {{value: any, error: string}} */
function read(kind, typed, unit) {
  const key = `${kind} ${unit} ${typed}`;
  let found = known.get(key);
  if (!found) {
    if (known.size > MOST_KNOWN) {
      known.clear();
    }
    found = readAs(kind, typed, unit === "ask" ? null : unit);
    known.set(key, found);
  }
  return found;
}

/** @param {string} typed @param {string} unit the unit of a bare number, or ask @returns {Read} */
export function readLength(typed, unit) {
  const { value, error } = read("length", typed, unit);
  return value === null ? { ok: false, asks: error || "is missing" } : { ok: true, mm: value };
}

/** @param {string} typed @param {string} unit @returns {number | null} [mm] */
export function millimetres(typed, unit) {
  return read("length", typed, unit).value;
}

/** @param {string} typed @param {string} unit @returns {number[] | null} several lengths in order [mm] */
export function readList(typed, unit) {
  return read("lengths", typed, unit).value;
}

/** @param {string} typed @param {string} unit @returns {import("./shapes.js").Point[] | null} */
export function readCorners(typed, unit) {
  const corners = read("corners", typed, unit).value;
  return corners && corners.length >= 3 ? corners : null;
}

/** @param {number} mm @returns {string} a length as it is written into an answer: one meaning in any firm */
export function written(mm) {
  return `${Math.round(mm)} mm`;
}

/** @param {import("./shapes.js").Point[]} corners @returns {string} */
export function writtenCorners(corners) {
  return corners.map(([x, y]) => `${written(x)}, ${written(y)}`).join("; ");
}
