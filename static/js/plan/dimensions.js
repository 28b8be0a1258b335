// @ts-check
/** Dimension lines with slanted ticks: a line between two spots, and running ones counted from the datum. */

import { path, px, text, widthOf } from "./marks.js";
import { boundsOf, sidesOf } from "./shapes.js";
import { figure } from "./words.js";

const TICK_PX = 5;
const TEXT_PX = 15;
const RUNNING_PX = 14; // from the outermost wall to the running line
const OVERALL_PX = 74;
const SIDE_PX = 24;
const APART_PX = 15;

/** @typedef {import("./view.js").View} View */

/** @param {number} x [px] @param {number} y [px] @returns {string} */
function tick(x, y) {
  return `M${px(x - TICK_PX)} ${px(y + TICK_PX)}L${px(x + TICK_PX)} ${px(y - TICK_PX)}`;
}

/**
 * Draw one dimension between two spots on a level or upright line.
 *
 * @param {[number, number]} from [px] @param {[number, number]} to [px] @param {string} words
 * @param {string} [ink] drawn stronger by another class
 * @param {View} [seen] keeps the figure in sight where the line runs out of it @returns {string}
 */
export function dimension(from, to, words, ink = "", seen = undefined) {
  const [[ax, ay], [bx, by]] = [from, to];
  const upright = Math.abs(by - ay) > Math.abs(bx - ax);
  const length = Math.hypot(bx - ax, by - ay);
  const stronger = ink && ` plan-line--${ink}`;
  const line = path(`plan-line plan-line--dimension${stronger}`, `M${px(ax)} ${px(ay)}L${px(bx)} ${px(by)}`);
  const ticks = path(`plan-line plan-line--tick${stronger}`, tick(ax, ay) + tick(bx, by));
  const [mx, my] = [middle(ax, bx, seen?.width), middle(ay, by, seen?.height)];
  const size = ink ? 18 : TEXT_PX;
  if (length < widthOf(words, size) * (ink ? 0.4 : 1)) {
    return line + ticks;
  }
  const written = upright
    ? text(`plan-text${ink && ` plan-text--${ink}`}`, mx - 6, my, words, true)
    : text(`plan-text${ink && ` plan-text--${ink}`}`, mx, my - 6, words);
  return line + ticks + written;
}

/** @param {number} one [px] @param {number} other [px] @param {number} [room] how far one sees [px]
 * @returns {number} the middle of what is seen of a line [px] */
function middle(one, other, room = Infinity) {
  const isSeen = Math.max(one, other) > 0 && Math.min(one, other) < room;
  const [low, high] = [Math.max(0, Math.min(one, other)), Math.min(room, Math.max(one, other))];
  return isSeen ? (low + high) / 2 : (one + other) / 2;
}

/** @param {import("./shapes.js").Point[]} outline @param {View} view @returns {string} each side, and over all */
export function outlineDimensions(outline, view) {
  const whole = boundsOf(outline);
  const drawn = sidesOf(outline).map(([a, b]) => {
    const onDatum = (a[0] === b[0] && a[0] === whole.left) || (a[1] === b[1] && a[1] === whole.front);
    const lengthMm = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (onDatum && (lengthMm === whole.right - whole.left || lengthMm === whole.back - whole.front)) {
      return "";
    }
    // Where running dimensions stand outside, part of a wall is told inside.
    const outward = onDatum && !view.isNarrow ? -1 : 1;
    const [dx, dy] = [(outward * (b[1] - a[1])) / lengthMm, (-outward * (b[0] - a[0])) / lengthMm];
    /** @param {import("./shapes.js").Point} corner @returns {[number, number]} */
    const off = corner => {
      const [x, y] = view.at(corner);
      return [x + dx * SIDE_PX, y - dy * SIDE_PX];
    };
    return dimension(off(a), off(b), figure(lengthMm));
  });
  const [left, bottom] = view.at([whole.left, whole.front]);
  const [right, top] = view.at([whole.right, whole.back]);
  const off = view.isNarrow ? SIDE_PX : OVERALL_PX;
  drawn.push(dimension([left, bottom + off], [right, bottom + off], figure(whole.right - whole.left)));
  drawn.push(dimension([left - off, bottom], [left - off, top], figure(whole.back - whole.front)));
  return drawn.join("");
}

/**
 * Draw running dimensions of every edge of everything: from the left gable below, from the front eaves at the
 * left. A figure without room is left out until one draws nearer; its tick stays.
 *
 * @param {import("./read.js").Plan} plan @param {View} view @returns {string}
 */
export function runningDimensions(plan, view) {
  const outline = plan.outline.polygon;
  if (!outline || view.isNarrow) {
    return "";
  }
  const whole = boundsOf(outline);
  /** @type {Set<number>} */
  const xs = new Set();
  /** @type {Set<number>} */
  const ys = new Set();
  for (const thing of [plan.hatch, ...plan.zones, ...plan.keepOuts]) {
    if (thing && thing.polygon) {
      const box = boundsOf(thing.polygon);
      xs.add(box.left).add(box.right);
      ys.add(box.front).add(box.back);
    }
  }
  const [left, bottom] = view.at([whole.left, whole.front]);
  const [right] = view.at([whole.right, whole.back]);
  const [, top] = view.at([whole.left, whole.back]);
  return runningAlong([...xs], mm => view.at([mm, 0])[0], bottom + RUNNING_PX, [left, right], true)
    + runningAlong([...ys], mm => view.at([0, mm])[1], left - RUNNING_PX, [bottom, top], false);
}

/**
 * @param {number[]} positions [mm] @param {(mm: number) => number} place [px] @param {number} line [px]
 * @param {[number, number]} ends [px] @param {boolean} level @returns {string}
 */
function runningAlong(positions, place, line, ends, level) {
  if (!positions.length) {
    return "";
  }
  /** @param {number} along @param {number} off @returns {[number, number]} */
  const spot = (along, off) => (level ? [along, line + off] : [line - off, along]);
  const [ax, ay] = spot(ends[0], 0);
  const far = place(positions.reduce((a, b) => (Math.abs(place(b) - ends[0]) > Math.abs(place(a) - ends[0]) ? b : a)));
  const [bx, by] = spot(far, 0);
  let ticks = "";
  const words = [];
  let last = -Infinity;
  for (const mm of positions.sort((a, b) => place(a) - place(b))) {
    const along = place(mm);
    ticks += tick(...spot(along, 0));
    if (along - last >= APART_PX) {
      const reach = 8;
      words.push(level
        ? text("plan-text plan-text--end", along + 5, line + reach, figure(mm), true)
        : text("plan-text plan-text--end", line - reach, along + 5, figure(mm)));
      last = along;
    }
  }
  return `<circle class="plan-line plan-line--tick" cx="${px(ax)}" cy="${px(ay)}" r="3.5"/>`
    + path("plan-line plan-line--dimension", `M${px(ax)} ${px(ay)}L${px(bx)} ${px(by)}`)
    + path("plan-line plan-line--tick", ticks) + words.join("");
}

/** @param {import("./read.js").Thing} thing @param {View} view @returns {string} all that places it, in chalk */
export function chosenDimensions(thing, view) {
  if (!thing.polygon || thing.kind === "outline" || thing.kind === "joists") {
    return "";
  }
  const box = boundsOf(thing.polygon);
  const [left, bottom] = view.at([box.left, box.front]);
  const [right, top] = view.at([box.right, box.back]);
  const [gable, eaves] = view.at([0, 0]);
  const [mx, my] = [(left + right) / 2, (top + bottom) / 2];
  return (box.left > 0 ? dimension([gable, my], [left, my], figure(box.left), "chosen", view) : "")
    + (box.front > 0 ? dimension([mx, eaves], [mx, bottom], figure(box.front), "chosen", view) : "")
    + dimension([left, top - 14], [right, top - 14], figure(box.right - box.left), "chosen", view)
    + dimension([right + 44, bottom], [right + 44, top], figure(box.back - box.front), "chosen", view);
}

/** @param {import("./read.js").Thing} field @param {View} view @returns {string} its centres, along its edge */
export function centresDimensions(field, view) {
  const lines = field.lines || [];
  if (!field.polygon || lines.length < 2 || view.isNarrow) {
    return "";
  }
  const box = boundsOf(field.polygon);
  const level = field.runs !== "x";
  const edge = level ? view.at([0, box.back])[1] + 16 : view.at([box.right, 0])[0] - 16;
  const isEven = field.how === "even";
  const shown = isEven ? lines.slice(0, 2) : lines;
  let drawn = "";
  for (let at = 1; at < shown.length; at += 1) {
    const gap = shown[at] - shown[at - 1];
    const [from, to] = [shown[at - 1], shown[at]].map(mm => (level ? view.at([mm, 0])[0] : view.at([0, mm])[1]));
    const words = isEven ? `${lines.length} at ${figure(gap)}` : figure(gap);
    drawn += level
      ? dimension([from, edge], [to, edge], isEven ? "" : words)
      : dimension([edge, from], [edge, to], isEven ? "" : words);
    if (isEven) {
      drawn += level
        ? text("plan-text plan-text--start", to + 10, edge + 5, words)
        : text("plan-text plan-text--end", edge - 10, (from + to) / 2 + 5, words);
    }
  }
  return drawn;
}
