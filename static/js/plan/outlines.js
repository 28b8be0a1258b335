// @ts-check
/** The outline of the loft by its numbers: rectangle, L, T, or its corners; and what dragging does to them. */

import { isRightAngled, rectangle, shifted, tidied } from "./shapes.js";

/** @typedef {import("./shapes.js").Point} Point */
/** @typedef {Record<string, number | string>} Numbers by the name of the answer; lengths in mm */

/** What each kind of outline is first drawn with; common practice, no source. */
export const USUAL_OUTLINES = /** @type {Record<string, Numbers>} */ ({
  rectangle: { outline_length: 8000, outline_depth: 6000 },
  L: {
    outline_length: 10000, outline_depth: 8000,
    missing_corner: "back right", missing_length: 4000, missing_depth: 3000,
  },
  T: {
    outline_length: 10000, outline_depth: 8000,
    stem_side: "front", stem_from: 3000, stem_width: 4000, stem_depth: 3000,
  },
});

/** The answers of each kind, in the order in which they are asked. */
export const OUTLINE_NAMES = {
  rectangle: ["outline_length", "outline_depth"],
  L: ["outline_length", "outline_depth", "missing_corner", "missing_length", "missing_depth"],
  T: ["outline_length", "outline_depth", "stem_side", "stem_from", "stem_width", "stem_depth"],
  corners: ["corners"],
};

/** @param {string} kind @param {Numbers} numbers @returns {Point[] | null} the corners, once all is known */
export function outlineOf(kind, numbers) {
  const names = OUTLINE_NAMES[kind];
  if (!names || kind === "corners" || names.some(name => numbers[name] === null || numbers[name] === "")) {
    return null;
  }
  const length = Number(numbers.outline_length);
  const depth = Number(numbers.outline_depth);
  if (kind === "rectangle") {
    return rectangle(0, 0, length, depth);
  }
  return tidied(kind === "L" ? ofL(length, depth, numbers) : ofT(length, depth, numbers));
}

/** @param {number} length @param {number} depth @param {Numbers} numbers @returns {Point[]} */
function ofL(length, depth, numbers) {
  const [cutX, cutY] = [Number(numbers.missing_length), Number(numbers.missing_depth)];
  const back = String(numbers.missing_corner).startsWith("back");
  const right = String(numbers.missing_corner).endsWith("right");
  const inner = [right ? length - cutX : cutX, back ? depth - cutY : cutY];
  const full = rectangle(0, 0, length, depth);
  const place = back ? (right ? 2 : 3) : (right ? 1 : 0);
  const [ax, ay] = full[(place + 3) % 4];
  const [bx, by] = full[(place + 1) % 4];
  const upright = place % 2 === 0;
  /** @type {Point[]} */
  const step = upright
    ? [[ax, inner[1]], [inner[0], inner[1]], [inner[0], by]]
    : [[inner[0], ay], [inner[0], inner[1]], [bx, inner[1]]];
  return [...full.slice(0, place), ...step, ...full.slice(place + 1)];
}

/** @param {number} length @param {number} depth @param {Numbers} numbers @returns {Point[]} */
function ofT(length, depth, numbers) {
  const from = Number(numbers.stem_from);
  const to = from + Number(numbers.stem_width);
  const out = Number(numbers.stem_depth);
  switch (numbers.stem_side) {
    case "front":
      return [[from, 0], [to, 0], [to, out], [length, out], [length, depth], [0, depth], [0, out], [from, out]];
    case "left":
      return [[out, 0], [length, 0], [length, depth], [out, depth], [out, to], [0, to], [0, from], [out, from]];
    case "right": {
      const wall = length - out;
      return [[0, 0], [wall, 0], [wall, from], [length, from], [length, to], [wall, to], [wall, depth], [0, depth]];
    }
    default: {
      const wall = depth - out;
      return [[0, 0], [length, 0], [length, wall], [to, wall], [to, depth], [from, depth], [from, wall], [0, wall]];
    }
  }
}

/**
 * @typedef {object} Handle
 * @property {string} name
 * @property {Point} at where it stands [mm]
 * @property {string} axes which way it goes: x, y, xy; empty if it is only tapped
 * @property {(to: Point) => Record<string, number | Point[]>} drag the answers that a drag to a point changes
 */

/** @param {string} kind @param {Numbers} numbers @returns {Handle[]} the handles of an outline by numbers */
export function outlineHandles(kind, numbers) {
  const length = Number(numbers.outline_length);
  const depth = Number(numbers.outline_depth);
  /** @type {Handle[]} */
  const handles = [
    { name: "right", at: [length, depth / 2], axes: "x", drag: ([x]) => ({ outline_length: least(x) }) },
    { name: "back", at: [length / 2, depth], axes: "y", drag: ([, y]) => ({ outline_depth: least(y) }) },
  ];
  if (kind === "rectangle") {
    handles.push({
      name: "corner", at: [length, depth], axes: "xy",
      drag: ([x, y]) => ({ outline_length: least(x), outline_depth: least(y) }),
    });
  } else if (kind === "L") {
    handles.push(innerCorner(length, depth, numbers));
  } else if (kind === "T") {
    handles.push(...stemHandles(length, depth, numbers));
  }
  return handles;
}

/** @param {number} length @param {number} depth @param {Numbers} numbers @returns {Handle} */
function innerCorner(length, depth, numbers) {
  const back = String(numbers.missing_corner).startsWith("back");
  const right = String(numbers.missing_corner).endsWith("right");
  const [cutX, cutY] = [Number(numbers.missing_length), Number(numbers.missing_depth)];
  return {
    name: "inner corner",
    at: [right ? length - cutX : cutX, back ? depth - cutY : cutY],
    axes: "xy",
    drag: ([x, y]) => ({
      missing_length: between(right ? length - x : x, length),
      missing_depth: between(back ? depth - y : y, depth),
    }),
  };
}

/** @param {number} length @param {number} depth @param {Numbers} numbers @returns {Handle[]} */
function stemHandles(length, depth, numbers) {
  const [from, width, out] = [numbers.stem_from, numbers.stem_width, numbers.stem_depth].map(Number);
  const upright = numbers.stem_side === "front" || numbers.stem_side === "back";
  const far = numbers.stem_side === "back" || numbers.stem_side === "right";
  const whole = upright ? depth : length;
  const wall = far ? whole - out : out;
  const most = upright ? length : depth;
  const middle = far ? whole - out / 2 : out / 2;
  /** @param {number} along @param {number} across @returns {Point} */
  const spot = (along, across) => (upright ? [along, across] : [across, along]);
  /** @param {Point} to */
  const along = to => to[upright ? 0 : 1];
  return [
    {
      name: "stem begins", at: spot(from, middle), axes: upright ? "x" : "y",
      drag: to => {
        const begins = Math.max(0, Math.min(along(to), from + width - 50));
        return { stem_from: begins, stem_width: from + width - begins };
      },
    },
    {
      name: "stem ends", at: spot(from + width, middle), axes: upright ? "x" : "y",
      drag: to => ({ stem_width: least(Math.min(along(to), most) - from) }),
    },
    {
      name: "shoulder", at: spot((from + width + most) / 2, wall), axes: upright ? "y" : "x",
      drag: to => ({ stem_depth: between(far ? whole - to[upright ? 1 : 0] : to[upright ? 1 : 0], whole) }),
    },
  ];
}

/** @param {Point[]} drawn corners as tapped @returns {Point[]} closed, from the datum, counter-clockwise */
export function closed(drawn, rightAngles) {
  const corners = [...drawn];
  const [first, last] = [corners[0], corners[corners.length - 1]];
  if (rightAngles && first[0] !== last[0] && first[1] !== last[1]) {
    const before = corners[corners.length - 2];
    corners.push(before && before[0] === last[0] ? [first[0], last[1]] : [last[0], first[1]]);
  }
  const tidy = tidied(corners);
  if (tidy.length < 3 || (rightAngles && !isRightAngled(tidy))) {
    return [];
  }
  const left = Math.min(...tidy.map(([x]) => x));
  const front = Math.min(...tidy.map(([, y]) => y));
  return shifted(tidy, -left, -front);
}

/** @param {number} mm @returns {number} */
function least(mm) {
  return Math.max(50, mm);
}

/** @param {number} mm @param {number} most @returns {number} */
function between(mm, most) {
  return Math.max(50, Math.min(mm, most - 50));
}
