// @ts-check
/** Where an edge likes to lie: on a joist, flush with what stands there, else on a whole 50 mm. */

import { boundsOf } from "./shapes.js";

export const STEP_MM = 50;
const REACH_PX = 10;
const MOST_REACH_MM = 60; // never so far that the next joist is out of reach

/**
 * @typedef {object} Line something to lie on
 * @property {number} mm @property {string} words what it is @property {number} from the stretch on the other
 * axis where it counts [mm] @property {number} to [mm]
 */
/** @typedef {{x: Line[], y: Line[]}} Lines */
/** @typedef {{axis: "x" | "y", mm: number, words: string}} Guide */
/** @typedef {import("./read.js").Plan} Plan */
/** @typedef {import("./read.js").Thing} Thing */

/** @param {Plan} plan @param {Pick<Thing, "kind" | "key">} thing @returns {Lines} */
export function linesFor(plan, thing) {
  /** @type {Lines} */
  const lines = { x: [], y: [] };
  if (thing.kind === "zones" || thing.kind === "hatch") {
    for (const field of plan.joists) {
      addJoists(lines, field, thing.kind === "hatch" ? plan.joistWidthMm / 2 : 0);
    }
  }
  for (const other of plan.things) {
    if (other.key !== thing.key && other.polygon && (other.kind !== "joists" || other.isPart)) {
      addEdges(lines, other);
    }
  }
  return lines;
}

/** @param {Lines} lines @param {Thing} field @param {number} halfMm 0 for centres, else to both faces [mm] */
function addJoists(lines, field, halfMm) {
  if (!field.polygon) {
    return;
  }
  const box = boundsOf(field.polygon);
  const [axis, from, to] = field.runs === "x"
    ? /** @type {const} */ (["y", box.left, box.right])
    : /** @type {const} */ (["x", box.front, box.back]);
  (field.lines || []).forEach((centre, place) => {
    if (halfMm) {
      lines[axis].push({ mm: Math.round(centre - halfMm), words: `joist ${place + 1}`, from, to });
      lines[axis].push({ mm: Math.round(centre + halfMm), words: `joist ${place + 1}`, from, to });
    } else {
      lines[axis].push({ mm: centre, words: `joist ${place + 1}`, from, to });
    }
  });
}

/** @param {Lines} lines @param {Thing} other */
function addEdges(lines, other) {
  const { left, right, front, back } = boundsOf(other.polygon || []);
  const words = other.kind === "outline" ? "wall" : other.kind === "joists" ? "edge of joists" : "edge";
  const near = other.kind === "outline" ? { from: -Infinity, to: Infinity } : null;
  for (const [x] of other.polygon || []) {
    lines.x.push({ mm: x, words, ...(near || { from: front - 1000, to: back + 1000 }) });
  }
  for (const [, y] of other.polygon || []) {
    lines.y.push({ mm: y, words, ...(near || { from: left - 1000, to: right + 1000 }) });
  }
}

/** @param {import("./view.js").View} view @returns {number} how near an edge must be to be drawn to a line [mm] */
export function reachOf(view) {
  return Math.min(view.mm(REACH_PX), MOST_REACH_MM);
}

/** @param {number} mm @returns {number} on a whole step [mm] */
export function stepped(mm) {
  return Math.round(mm / STEP_MM) * STEP_MM;
}

/**
 * Find where one edge comes to lie.
 *
 * @param {Lines} lines @param {"x" | "y"} axis @param {number} mm where it is held [mm]
 * @param {[number, number]} across the stretch it takes on the other axis [mm] @param {number} reachMm [mm]
 * @returns {{mm: number, guide: Guide}}
 */
export function snapped(lines, axis, mm, across, reachMm) {
  const nearest = nearestLine(lines[axis], mm, across, reachMm);
  const found = nearest ? nearest.mm : stepped(mm);
  return { mm: found, guide: { axis, mm: found, words: nearest ? nearest.words : "" } };
}

/**
 * Find where the two edges of a thing that is moved come to lie: the one that is nearer to a line leads.
 *
 * @param {Lines} lines @param {"x" | "y"} axis @param {number} low where its lower edge is held [mm]
 * @param {number} size [mm] @param {[number, number]} across [mm] @param {number} reachMm [mm]
 * @returns {{mm: number, guide: Guide}} its lower edge
 */
export function snappedPair(lines, axis, low, size, across, reachMm) {
  const below = nearestLine(lines[axis], low, across, reachMm);
  const above = nearestLine(lines[axis], low + size, across, reachMm);
  const offBelow = below ? Math.abs(below.mm - low) : Infinity;
  const offAbove = above ? Math.abs(above.mm - low - size) : Infinity;
  if (above && offAbove < offBelow) {
    return { mm: above.mm - size, guide: { axis, mm: above.mm, words: above.words } };
  }
  const found = below ? below.mm : stepped(low);
  return { mm: found, guide: { axis, mm: found, words: below ? below.words : "" } };
}

/** @param {Line[]} lines @param {number} mm @param {[number, number]} across @param {number} reachMm */
function nearestLine(lines, mm, across, reachMm) {
  /** @type {Line | null} */
  let nearest = null;
  let off = reachMm;
  for (const line of lines) {
    const away = Math.abs(line.mm - mm);
    if (away <= off && line.from <= across[1] && line.to >= across[0] && !(nearest && away === off)) {
      nearest = line;
      off = away;
    }
  }
  return nearest;
}
