// @ts-check
/** What can be taken hold of on the thing that is chosen, and which answers each hold changes. */

import { outlineHandles } from "./outlines.js";
import { boundsOf, isRectangle, sidesOf, withCornerMoved } from "./shapes.js";

/** @typedef {import("./read.js").Thing} Thing */
/** @typedef {import("./outlines.js").Handle} PlainHandle */
/** @typedef {PlainHandle & {px: [number, number], sign?: "corner" | "side" | "add", side?: number}} Handle */
/** @typedef {import("./view.js").View} View */

export const REACH_PX = 26; // a hold is 52 px wide for a glove, however small it is drawn
const APART_PX = 40;
const ROOM_FOR_SIDES_PX = 4 * REACH_PX; // three holds beside each other

/**
 * List the holds of a thing.
 *
 * @param {Thing} thing @param {View} view @param {boolean} rightAngles whether corners keep right angles
 * @returns {Handle[]}
 */
export function handlesOf(thing, view, rightAngles) {
  if (thing.kind === "joists") {
    const isBox = thing.isPart && thing.polygon && isRectangle(thing.polygon);
    return [...joistHandles(thing, view), ...(isBox ? boxHandles(thing, view, false) : [])];
  }
  if (!thing.polygon || thing.kind === "hatch") {
    return [];
  }
  if (thing.kind === "outline" && thing.shape !== "corners") {
    return outlineHandles(String(thing.shape), thing.numbers || {})
      .map(handle => ({ ...handle, px: view.at(handle.at), sign: handle.axes === "xy" ? "corner" : "side" }));
  }
  return thing.byCorners ? cornerHandles(thing, view, rightAngles) : boxHandles(thing, view, true);
}

/** @param {Thing} thing @param {View} view @param {boolean} rightAngles @returns {Handle[]} */
function cornerHandles(thing, view, rightAngles) {
  const polygon = thing.polygon || [];
  /** @type {Handle[]} */
  const corners = polygon.map((at, place) => ({
    name: `corner ${place + 1}`, at, px: view.at(at), axes: "xy", sign: "corner",
    drag: to => ({ corners: withCornerMoved(polygon, place, to, rightAngles) }),
  }));
  /** @type {Handle[]} */
  const sides = sidesOf(polygon).map(([a, b], side) => {
    const level = a[1] === b[1];
    const at = /** @type {[number, number]} */ ([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]);
    return {
      name: `side ${side + 1}`, at, px: view.at(at), sign: "add", side,
      axes: !rightAngles ? "" : level ? "y" : a[0] === b[0] ? "x" : "",
      drag: ([x, y]) => ({ corners: withCornerMoved(polygon, side, level ? [a[0], y] : [x, a[1]], true) }),
    };
  });
  const room = sides.filter((_, side) => {
    const [a, b] = sidesOf(polygon)[side].map(corner => view.at(corner));
    return Math.hypot(a[0] - b[0], a[1] - b[1]) > 2 * REACH_PX;
  });
  return [...corners, ...room];
}

/** @param {Thing} thing @param {View} view @param {boolean} withCorners @returns {Handle[]} */
function boxHandles(thing, view, withCorners) {
  const box = boundsOf(thing.polygon || []);
  const [cx, cy] = [(box.left + box.right) / 2, (box.front + box.back) / 2];
  const [width, height] = [(box.right - box.left) * view.scale, (box.back - box.front) * view.scale];
  /** @type {Handle[]} */
  const handles = [];
  for (const [sx, sy] of [[-1, -1], [1, -1], [1, 1], [-1, 1], [0, -1], [1, 0], [0, 1], [-1, 0]]) {
    const isCorner = sx !== 0 && sy !== 0;
    const hasRoom = isCorner ? withCorners : !withCorners || (sx ? height : width) > ROOM_FOR_SIDES_PX;
    if (hasRoom) {
      /** @type {[number, number]} */
      const at = [[box.left, cx, box.right][sx + 1], [box.front, cy, box.back][sy + 1]];
      const [mx, my] = view.at([cx, cy]);
      handles.push({
        name: `${["front", "", "back"][sy + 1]} ${["left", "", "right"][sx + 1]}`.trim(),
        at, axes: `${sx ? "x" : ""}${sy ? "y" : ""}`, sign: isCorner ? "corner" : "side",
        px: [mx + sx * Math.max(width / 2, APART_PX), my - sy * Math.max(height / 2, APART_PX)],
        drag: to => resized(box, sx, sy, to),
      });
    }
  }
  return handles;
}

/** @param {import("./shapes.js").Bounds} box @param {number} sx @param {number} sy @param {[number, number]} to */
function resized(box, sx, sy, [x, y]) {
  /** @type {Record<string, number>} */
  const fields = {};
  if (sx < 0) {
    fields.left = Math.max(0, Math.min(x, box.right - 50));
    fields.length = box.right - fields.left;
  } else if (sx > 0) {
    fields.length = Math.max(50, x - box.left);
  }
  if (sy < 0) {
    fields.front = Math.max(0, Math.min(y, box.back - 50));
    fields.depth = box.back - fields.front;
  } else if (sy > 0) {
    fields.depth = Math.max(50, y - box.front);
  }
  return fields;
}

/** The first joist takes all along; the last one says how many there are. @param {Thing} field
 * @param {View} view @returns {Handle[]} */
function joistHandles(field, view) {
  const lines = field.lines || [];
  if (!lines.length || !field.polygon) {
    return [];
  }
  const box = boundsOf(field.polygon);
  const along = field.runs === "x" ? 0 : 1;
  const across = 1 - along;
  const middle = along === 0 ? box.left + (box.right - box.left) * 0.35 : box.front + (box.back - box.front) * 0.35;
  /** @param {number} line @returns {[number, number]} */
  const spot = line => (along === 0 ? [middle, line] : [line, middle]);
  /** @type {Handle[]} */
  const handles = [];
  if (field.first !== null) {
    handles.push({
      name: "first joist", at: spot(lines[0]), px: view.at(spot(lines[0])),
      axes: across === 0 ? "x" : "y", sign: "side",
      drag: to => ({ first: Math.max(0, to[across]) }),
    });
  }
  const { first, centres } = field;
  if (field.how === "even" && typeof first === "number" && centres) {
    const last = spot(lines[lines.length - 1]);
    handles.push({
      name: "last joist", at: last, px: view.at(last), axes: across === 0 ? "x" : "y", sign: "side",
      drag: to => ({ count: Math.max(2, Math.min(500, Math.round((to[across] - first) / centres) + 1)) }),
    });
  }
  return handles;
}
