// @ts-check
/** What a drag makes of a thing: moved, stretched by a hold, or drawn anew; each step as answers and guides. */

import { linesFor, reachOf, snapped, snappedPair } from "./snapping.js";
import { boundsOf, shifted } from "./shapes.js";

/** @typedef {import("./read.js").Thing} Thing */
/** @typedef {import("./read.js").Plan} Plan */
/** @typedef {import("./view.js").View} View */
/** @typedef {import("./shapes.js").Point} Point */
/** @typedef {{fields: import("./write.js").Fields, guides: import("./snapping.js").Guide[]}} Dragged */
/** @typedef {(to: Point) => Dragged} Drag from where the finger is [mm] */

const NO_WALLS = { left: 0, front: 0, right: Infinity, back: Infinity };

/** @param {Plan} plan @param {Thing} thing @param {View} view @param {Point} from @returns {Drag} */
export function movingOf(plan, thing, view, from) {
  const polygon = thing.polygon || [];
  const box = boundsOf(polygon);
  const lines = linesFor(plan, thing);
  const reach = reachOf(view);
  const walls = plan.outline.polygon ? boundsOf(plan.outline.polygon) : NO_WALLS;
  return ([x, y]) => {
    const low = [box.left + x - from[0], box.front + y - from[1]];
    const [length, depth] = [box.right - box.left, box.back - box.front];
    const left = snappedPair(lines, "x", low[0], length, [low[1], low[1] + depth], reach);
    const front = snappedPair(lines, "y", low[1], depth, [low[0], low[0] + length], reach);
    const to = [within(left.mm, length, walls.left, walls.right), within(front.mm, depth, walls.front, walls.back)];
    const fields = thing.byCorners
      ? { corners: shifted(polygon, to[0] - box.left, to[1] - box.front) }
      : { left: to[0], front: to[1] };
    const held = [left, front].filter(({ mm }, axis) => mm === to[axis]); // not held back by a wall
    return { fields, guides: held.map(({ guide }) => guide) };
  };
}

/** @param {number} low @param {number} size @param {number} from @param {number} to @returns {number} [mm] */
function within(low, size, from, to) {
  return Math.max(from, 0, size < to - from ? Math.min(low, to - size) : low);
}

/**
 * @param {Plan} plan @param {Thing} thing @param {import("./handles.js").Handle} handle @param {View} view
 * @param {Point} from @returns {Drag}
 */
export function stretchingOf(plan, thing, handle, view, from) {
  const box = boundsOf(thing.polygon || [[0, 0]]);
  const lines = linesFor(plan, thing);
  const reach = reachOf(view);
  const counted = handle.name === "last joist" && thing.centres && typeof thing.first === "number";
  return ([x, y]) => {
    const held = /** @type {Point} */ ([handle.at[0] + x - from[0], handle.at[1] + y - from[1]]);
    /** @type {import("./snapping.js").Guide[]} */
    const guides = [];
    if (counted) {
      return { fields: handle.drag(held), guides };
    }
    if (handle.axes.includes("x")) {
      const found = snapped(lines, "x", held[0], acrossOf(box, held[1], handle, 1), reach);
      held[0] = Math.max(0, found.mm);
      guides.push({ ...found.guide, mm: held[0] });
    }
    if (handle.axes.includes("y")) {
      const found = snapped(lines, "y", held[1], acrossOf(box, held[0], handle, 0), reach);
      held[1] = Math.max(0, found.mm);
      guides.push({ ...found.guide, mm: held[1] });
    }
    return { fields: handle.drag(held), guides };
  };
}

/** @param {import("./shapes.js").Bounds} box @param {number} held @param {{axes: string}} handle
 * @param {0 | 1} axis @returns {[number, number]} the stretch that a moved edge takes [mm] */
function acrossOf(box, held, handle, axis) {
  const [low, high] = axis ? [box.front, box.back] : [box.left, box.right];
  return handle.axes === "xy" ? [Math.min(low, held), Math.max(high, held)] : [low, high];
}

/** @param {Plan} plan @param {{kind: "zones" | "keep_outs", key: string}} thing @param {View} view
 * @param {Point} from @returns {Drag} of a rectangle drawn from corner to corner */
export function drawingOf(plan, thing, view, from) {
  const lines = linesFor(plan, thing);
  const reach = reachOf(view);
  const start = [
    Math.max(0, snapped(lines, "x", from[0], [from[1], from[1]], reach).mm),
    Math.max(0, snapped(lines, "y", from[1], [from[0], from[0]], reach).mm),
  ];
  return to => {
    const found = /** @type {const} */ (["x", "y"]).map((axis, place) => {
      const across = [from[1 - place], to[1 - place]];
      return snapped(lines, axis, to[place], [Math.min(...across), Math.max(...across)], reach);
    });
    const end = found.map(({ mm }) => Math.max(0, mm));
    const fields = {
      left: Math.min(start[0], end[0]), front: Math.min(start[1], end[1]),
      length: Math.max(50, Math.abs(end[0] - start[0])), depth: Math.max(50, Math.abs(end[1] - start[1])),
    };
    return { fields, guides: found.map(({ guide }) => guide) };
  };
}

/** @param {Plan} plan @param {Thing} thing @param {Point} by [mm] @returns {import("./write.js").Fields | null} */
export function nudged(plan, thing, [dx, dy]) {
  if (thing.kind === "joists") {
    const by = thing.runs === "x" ? dy : dx;
    return by && typeof thing.first === "number" ? { first: Math.max(0, thing.first + by) } : null;
  }
  if (thing.kind === "outline") {
    const { outline_length: length, outline_depth: depth } = thing.numbers || {};
    if (thing.shape === "corners" || typeof length !== "number" || typeof depth !== "number") {
      return null;
    }
    return dx ? { outline_length: Math.max(50, length + dx) } : { outline_depth: Math.max(50, depth + dy) };
  }
  if (!thing.polygon) {
    return null;
  }
  const box = boundsOf(thing.polygon);
  const [left, front] = [Math.max(0, box.left + dx), Math.max(0, box.front + dy)];
  if (thing.byCorners) {
    return { corners: shifted(thing.polygon, left - box.left, front - box.front) };
  }
  return dx ? { left } : { front };
}

