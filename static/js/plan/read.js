// @ts-check
/** What stands in the boxes, as things on a plan. */

import { readCentres } from "./centres.js";
import { rowName } from "./inputs.js";
import { millimetres, readCorners, readList } from "./lengths.js";
import { OUTLINE_NAMES, outlineOf } from "./outlines.js";
import { rectangle, tidied } from "./shapes.js";

/** @typedef {import("./shapes.js").Point} Point */

/**
 * @typedef {object} Thing
 * @property {string} key
 * @property {"outline" | "hatch" | "joists" | "keep_outs" | "zones"} kind
 * @property {number} number of its row; 0 where there is only one
 * @property {string} name
 * @property {Point[] | null} polygon [mm]
 * @property {boolean} byCorners whether its shape is told by corners rather than by lengths
 * @property {string} [shape] of an outline: rectangle, L, T or corners
 * @property {Record<string, any>} [numbers] of an outline, lengths in mm
 * @property {string} [what] kind of a keep-out
 * @property {"x" | "y"} [runs] the way joists, or the hatch's long side, run
 * @property {number[]} [lines] centres of joists [mm]
 * @property {"even" | "readings" | "spacings"} [how] how the joists are told
 * @property {number | null} [first] [mm] @property {number | null} [centres] [mm] @property {number} [count]
 * @property {boolean} [isPart] whether a joist field has a shape of its own
 * @property {string} [over] the joist field that a zone lies over
 */

/**
 * @typedef {object} About what other pages of the visit say
 * @property {string} unit of a bare number @property {number} hatchLongMm @property {number} hatchShortMm
 * @property {number} joistWidthMm
 */

/**
 * @typedef {object} Plan
 * @property {Thing} outline @property {Thing | null} hatch @property {Thing[]} joists
 * @property {Thing[]} keepOuts @property {Thing[]} zones @property {Thing[]} things in the table's order
 * @property {number} joistWidthMm
 */

/** @param {Map<string, string>} values @param {About} about @returns {Plan} */
export function readPlan(values, about) {
  /** @param {string} name */
  const text = name => values.get(name) || "";
  /** @param {string} name */
  const length = name => millimetres(text(name), about.unit);
  const outline = readOutline(text, length, about.unit);
  const hatch = readHatch(text, length, about);
  /** @type {Record<string, Thing[]>} */
  const rows = { joists: [], keep_outs: [], zones: [] };
  const seen = new Set();
  for (const [name, value] of values) {
    const row = value ? rowName(name) : null;
    if (row && !seen.has(`${row.kind}-${row.number}`)) {
      seen.add(`${row.kind}-${row.number}`);
      if (!text(`${row.kind}-${row.number}-DELETE`)) {
        rows[row.kind].push(readRow(row.kind, row.number, text, about.unit, outline));
      }
    }
  }
  const { joists, keep_outs: keepOuts, zones } = rows;
  const things = [outline, ...(hatch ? [hatch] : []), ...joists, ...keepOuts, ...zones];
  return { outline, hatch, joists, keepOuts, zones, things, joistWidthMm: about.joistWidthMm };
}

/** @param {(name: string) => string} text @param {(name: string) => number | null} length
 * @param {string} unit @returns {Thing} */
function readOutline(text, length, unit) {
  const shape = text("outline_kind");
  /** @type {Record<string, any>} */
  const numbers = {};
  for (const name of new Set(Object.values(OUTLINE_NAMES).flat())) {
    numbers[name] = name === "missing_corner" || name === "stem_side" ? text(name) : length(name);
  }
  const corners = readCorners(text("corners"), unit);
  const polygon = shape === "corners" ? corners && tidied(corners) : outlineOf(shape, numbers);
  return {
    key: "outline", kind: "outline", number: 0, name: "", shape, numbers, byCorners: shape === "corners",
    polygon: polygon && polygon.length >= 3 ? polygon : null,
  };
}

/** @param {(name: string) => string} text @param {(name: string) => number | null} length
 * @param {About} about @returns {Thing | null} */
function readHatch(text, length, about) {
  const left = length("hatch_left");
  const front = length("hatch_front");
  if (left === null && front === null) {
    return null;
  }
  const runs = text("hatch_runs") === "x" ? "x" : "y";
  const sides = runs === "x" ? [about.hatchLongMm, about.hatchShortMm] : [about.hatchShortMm, about.hatchLongMm];
  const polygon = left === null || front === null ? null : rectangle(left, front, sides[0], sides[1]);
  return { key: "hatch", kind: "hatch", number: 0, name: "", polygon, runs, byCorners: false };
}

/** @param {string} kind @param {number} number @param {(name: string) => string} text @param {string} unit
 * @param {Thing} outline @returns {Thing} */
function readRow(kind, number, text, unit, outline) {
  const key = `${kind}-${number}`;
  /** @param {string} field */
  const said = field => text(`${key}-${field}`);
  const sides = ["left", "front", "length", "depth"].map(side => millimetres(said(side), unit));
  const corners = said("corners") ? readCorners(said("corners"), unit) : null;
  const whole = sides.every(side => side !== null) && sides[2] && sides[3];
  const [left, front, length, depth] = /** @type {number[]} */ (sides);
  const polygon = corners ? tidied(corners) : whole ? rectangle(left, front, length, depth) : null;
  const name = said("name").trim();
  /** @type {Thing} */
  const thing = { key, kind: /** @type {any} */ (kind), number, name, polygon, byCorners: Boolean(corners) };
  if (kind === "keep_outs") {
    return { ...thing, what: said("kind") };
  }
  if (kind === "zones") {
    return { ...thing, over: said("joist_field").trim() };
  }
  return { ...thing, ...readJoists(said, unit), polygon: polygon || outline.polygon, isPart: Boolean(polygon) };
}

/** @param {(field: string) => string} said @param {string} unit @returns {Partial<Thing>} */
function readJoists(said, unit) {
  const runs = said("runs_along") === "x" ? "x" : "y";
  const first = millimetres(said("first"), unit);
  const centres = millimetres(said("centres"), unit);
  const count = /^\d{1,3}$/.test(said("count").trim()) ? Number(said("count")) : 0;
  if (said("spacings")) {
    const read = readCentres(said("spacings"), unit);
    const lines = [first || 0];
    for (const spacing of read.ok ? read.spacings : []) {
      lines.push(lines[lines.length - 1] + spacing);
    }
    return { runs, first, centres: null, count: lines.length, how: "spacings", lines: first === null ? [] : lines };
  }
  if (said("readings")) {
    const lines = (readList(said("readings"), unit) || []).map(reading => (first || 0) + reading);
    return { runs, first, centres: null, count: lines.length, how: "readings", lines };
  }
  const lines = first === null || !centres
    ? [] : Array.from({ length: Math.min(count, 500) }, (_, at) => first + at * centres);
  return { runs, first, centres, count, how: "even", lines };
}
