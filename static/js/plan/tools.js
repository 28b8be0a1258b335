// @ts-check
/** What the palette puts on the plan with one tap, each in its usual size; common practice, no source. */

import { USUAL_OUTLINES, OUTLINE_NAMES } from "./outlines.js";
import { boundsOf, contains, rectangleRound } from "./shapes.js";
import { stepped } from "./snapping.js";

/** @typedef {import("./read.js").Plan} Plan */
/** @typedef {import("./shapes.js").Point} Point */
/** @typedef {import("./write.js").Fields} Fields */
/** @typedef {{name: "outline" | "joists" | "hatch" | "keep_outs" | "zones", what?: string,
 *   called?: string, size?: number[]}} Tool `what` kind, `called` a name given at once */

/** Length left to right and depth front to back by kind of keep-out [mm] */
const USUAL_SIZES = /** @type {Record<string, number[]>} */ ({
  tank: [900, 600], chimney: [600, 600], flue: [200, 200], strut: [100, 100], "truss web": [50, 400],
  boiler: [600, 400], downlight: [100, 100], cables: [1000, 100], other: [500, 500],
});
/** Old boards that stay are in a new deck's way, as anything else that stands there. @type {Tool} */
export const OLD_BOARDS = { name: "keep_outs", what: "other", called: "Existing boards", size: [2400, 1200] };
const USUAL_DECK = [2400, 1200];
const USUAL_CENTRES_MM = 400;
const FIELD_NAMES = ["Main roof", "Wing"];

/** @param {string} shape @param {Plan} plan @returns {Fields} what picking a shape of outline writes */
export function outlineFields(shape, plan) {
  const { numbers = {}, polygon } = plan.outline;
  /** @type {Fields} */
  const fields = { outline_kind: shape };
  if (shape === "corners") {
    return polygon ? { ...fields, corners: polygon } : fields;
  }
  const usual = { ...USUAL_OUTLINES[shape] };
  if (typeof numbers.outline_length === "number" && typeof numbers.outline_depth === "number") {
    const part = [numbers.outline_length / 10000, numbers.outline_depth / 8000];
    for (const name of ["missing_length", "stem_from", "stem_width"]) {
      usual[name] = name in usual ? stepped(Number(usual[name]) * part[0]) : usual[name];
    }
    for (const name of ["missing_depth", "stem_depth"]) {
      usual[name] = name in usual ? stepped(Number(usual[name]) * part[1]) : usual[name];
    }
  }
  for (const name of OUTLINE_NAMES[/** @type {"L"} */ (shape)]) {
    if (numbers[name] === null || numbers[name] === "" || numbers[name] === undefined) {
      fields[name] = usual[name];
    }
  }
  return fields;
}

/**
 * Say what a tap with a tool writes.
 *
 * @param {Plan} plan @param {Tool} tool @param {Point} at [mm] @returns {Fields}
 */
export function placed(plan, tool, at) {
  switch (tool.name) {
    case "joists":
      return joistFields(plan, tool.what === "x" ? "x" : "y", at);
    case "hatch": {
      const under = fieldUnder(plan, at);
      const runs = (plan.hatch && plan.hatch.runs) || (under && under.runs) || "y";
      return { ...around(at, tool.size || [562, 726]), runs };
    }
    case "keep_outs": {
      const size = tool.size || USUAL_SIZES[tool.what || "other"] || USUAL_SIZES.other;
      return { ...saidOf(tool), ...around(at, size), length: size[0], depth: size[1] };
    }
    default: {
      const size = tool.size || USUAL_DECK;
      return { ...around(at, size), length: size[0], depth: size[1], ...overField(plan, at) };
    }
  }
}

/** @param {Tool} tool @returns {Fields} what a keep-out says besides its sides */
export function saidOf(tool) {
  return { kind: tool.what || "other", ...(tool.called ? { name: tool.called } : {}) };
}

/** @param {Point} at @param {number[]} size @returns {{left: number, front: number}} [mm] */
function around([x, y], size) {
  return { left: Math.max(0, stepped(x - size[0] / 2)), front: Math.max(0, stepped(y - size[1] / 2)) };
}

/** @param {Plan} plan @param {Point} at @returns {import("./read.js").Thing | undefined} */
function fieldUnder(plan, at) {
  return plan.joists.find(field => field.polygon && field.isPart && contains(field.polygon, at))
    || plan.joists.find(field => field.polygon && contains(field.polygon, at));
}

/** @param {Plan} plan @param {Point} at @returns {Fields} the joist field that a deck lies over, where there are more */
export function overField(plan, at) {
  const field = fieldUnder(plan, at);
  return field && field.name && plan.joists.length > 1 ? { joist_field: field.name } : {};
}

/** @param {Plan} plan @param {"x" | "y"} runs @param {Point} at @returns {Fields} */
function joistFields(plan, runs, at) {
  const outline = plan.outline.polygon || [];
  const taken = plan.joists.filter(field => field.isPart && field.polygon).map(field => boundsOf(field.polygon || []));
  const walls = boundsOf(outline);
  const found = rectangleRound(outline, taken, at, runs === "y" ? 0 : 1);
  const isWhole = !found || (found.left === walls.left && found.right === walls.right
    && found.front === walls.front && found.back === walls.back);
  const box = found || walls;
  const [low, high] = runs === "y" ? [box.left, box.right] : [box.front, box.back];
  const first = low + USUAL_CENTRES_MM / 2;
  return {
    name: newName(plan), runs_along: runs, first, centres: USUAL_CENTRES_MM,
    count: Math.max(2, Math.floor((high - first) / USUAL_CENTRES_MM) + 1),
    ...(isWhole ? {} : { left: box.left, front: box.front, length: box.right - box.left, depth: box.back - box.front }),
  };
}

/** @param {Plan} plan @returns {string} a name that no joist field has */
function newName(plan) {
  const taken = new Set(plan.joists.map(field => field.name));
  const free = FIELD_NAMES.find(name => !taken.has(name));
  let number = plan.joists.length + 1;
  while (!free && taken.has(`Joist field ${number}`)) {
    number += 1;
  }
  return free || `Joist field ${number}`;
}

/** @param {Tool} tool @returns {string} what to do next with it */
export function hintOf(tool) {
  switch (tool.name) {
    case "outline":
      return "Tap the corners one after another; tap the first one again to close the shape.";
    case "joists":
      return "Tap the part of the loft with these joists.";
    case "hatch":
      return "Tap where the hatch is.";
    case "keep_outs":
      return tool.called === OLD_BOARDS.called
        ? "Tap or draw the old boards that stay. Those that come out are asked about under Insulation."
        : `Tap where it stands, or draw it from corner to corner: ${tool.what}.`;
    default:
      return "Draw the deck from corner to corner, or tap where it lies.";
  }
}
