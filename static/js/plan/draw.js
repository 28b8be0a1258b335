// @ts-check
/** The pictures of the things on the plan, layer upon layer. Figures are dimensions.js. */

import { path, pathOf, px, text, widthOf } from "./marks.js";
import { boundsOf, sidesOf } from "./shapes.js";
import { calledOf, figure } from "./words.js";

/** @typedef {import("./read.js").Plan} Plan */
/** @typedef {import("./read.js").Thing} Thing */
/** @typedef {import("./view.js").View} View */

const TEXT_PX = 15;

/** @param {Thing} thing @param {View} view @returns {string} */
function outlineOf(thing, view) {
  return pathOf((thing.polygon || []).map(corner => view.at(corner)));
}

/** @param {Plan} plan @param {View} view @returns {string} */
export function drawOutline(plan, view) {
  return plan.outline.polygon ? path("plan-wall", outlineOf(plan.outline, view)) : bareGrid(view);
}

/** @param {View} view @returns {string} squares of a metre from the datum on, to tap a first outline on */
function bareGrid(view) {
  const [left, bottom] = view.at([0, 0]);
  let d = "";
  for (let x = left; x < view.width; x += view.scale * 1000) {
    d += `M${px(x)} 0V${px(bottom)}`;
  }
  for (let y = bottom; y > 0; y -= view.scale * 1000) {
    d += `M${px(left)} ${px(y)}H${px(view.width)}`;
  }
  return path("plan-grid", d) + text("plan-text plan-text--start", left, bottom + 20, "front eaves; 1 square is 1 m")
    + text("plan-text plan-text--start", left - 8, bottom, "left gable", true);
}

/** @param {Plan} plan @param {View} view @param {string} chosen @returns {string} */
export function drawZones(plan, view, chosen) {
  return plan.zones.filter(zone => zone.polygon)
    .map(zone => path(`plan-zone${zone.key === chosen ? " plan-zone--chosen" : ""}`, outlineOf(zone, view))).join("");
}

/** @param {Plan} plan @param {View} view @param {string} chosen @returns {string} */
export function drawJoists(plan, view, chosen) {
  return plan.joists.map(field => {
    const isChosen = field.key === chosen ? " plan-joist--chosen" : "";
    const edge = `plan-field${isChosen && " plan-field--chosen"}`;
    return (field.polygon && field.isPart ? path(edge, outlineOf(field, view)) : "")
      + path(`plan-joist${isChosen}`, centreLines(field, view, 0))
      + (view.scale * plan.joistWidthMm > 5 ? path("plan-face", centreLines(field, view, plan.joistWidthMm / 2)) : "");
  }).join("");
}

/** @param {Thing} field @param {View} view @param {number} off to both faces, or 0 for the centre [mm] */
function centreLines(field, view, off) {
  let d = "";
  for (const centre of field.lines || []) {
    for (const line of off ? [centre - off, centre + off] : [centre]) {
      for (const [from, to] of crossings(field.polygon || [], line, field.runs === "x" ? 1 : 0)) {
        const ends = field.runs === "x" ? [[from, line], [to, line]] : [[line, from], [line, to]];
        d += pathOf(ends.map(([x, y]) => view.at([x, y])), true);
      }
    }
  }
  return d;
}

/**
 * @param {import("./shapes.js").Point[]} polygon @param {number} line [mm] @param {0 | 1} axis of the line's place
 * @returns {[number, number][]} the stretches of a straight line inside a shape [mm]
 */
export function crossings(polygon, line, axis) {
  const at = line + 0.5; // never along a side
  const met = sidesOf(polygon).filter(([a, b]) => a[axis] > at !== b[axis] > at)
    .map(([a, b]) => a[1 - axis] + ((b[1 - axis] - a[1 - axis]) * (at - a[axis])) / (b[axis] - a[axis]))
    .sort((one, other) => one - other);
  /** @type {[number, number][]} */
  const stretches = [];
  for (let place = 0; place + 1 < met.length; place += 2) {
    stretches.push([met[place], met[place + 1]]);
  }
  return stretches;
}

/** @param {Plan} plan @param {View} view @param {string} chosen @returns {string} */
export function drawStanding(plan, view, chosen) {
  const hatch = plan.hatch && plan.hatch.polygon ? drawHatch(plan.hatch, view, chosen) : "";
  return plan.keepOuts.filter(thing => thing.polygon).map(thing => {
    const isChosen = thing.key === chosen ? " plan-keep-out--chosen" : "";
    const d = outlineOf(thing, view);
    return path(`plan-keep-out${isChosen}`, d) + path("plan-hatching", d) + markOf(thing, view);
  }).join("") + hatch;
}

/** @param {Thing} hatch @param {View} view @param {string} chosen */
function drawHatch(hatch, view, chosen) {
  const [a, b, c, d] = (hatch.polygon || []).map(corner => view.at(corner));
  return path(`plan-hatch${hatch.key === chosen ? " plan-hatch--chosen" : ""}`, outlineOf(hatch, view))
    + path("plan-cross", pathOf([a, c], true) + pathOf([b, d], true));
}

/** @param {Plan} plan @param {View} view @returns {string} what each thing is called, over all else */
export function drawNames(plan, view) {
  return [...plan.zones, ...plan.keepOuts, ...(plan.hatch ? [plan.hatch] : [])]
    .map(thing => (thing.polygon ? label(thing, view) : "")).join("");
}

/** @param {Thing} thing @param {View} view @returns {string} the sign of its kind, where there is room for one */
function markOf(thing, view) {
  const box = boundsOf(thing.polygon || []);
  const [x, y] = view.at([(box.left + box.right) / 2, (box.front + box.back) / 2]);
  const half = Math.min(Math.max(view.scale * Math.min(box.right - box.left, box.back - box.front) / 2, 5), 12);
  const round = `<circle class="plan-mark" cx="${px(x)}" cy="${px(y)}" r="${px(half)}"/>`;
  const cross = path("plan-mark", `M${px(x - half)} ${px(y)}H${px(x + half)}M${px(x)} ${px(y - half)}V${px(y + half)}`);
  switch (thing.what) {
    case "downlight":
      return round + cross;
    case "flue":
      return round;
    case "strut":
    case "truss web":
      return path("plan-mark plan-mark--solid", `M${px(x - 4)} ${px(y - 4)}h8v8h-8z`);
    case "cables": {
      const isLong = box.right - box.left >= box.back - box.front;
      const [left, bottom] = view.at([box.left, box.front]);
      const [right, top] = view.at([box.right, box.back]);
      const [a, b] = isLong ? [left, right] : [top, bottom];
      let d = isLong ? `M${px(a)} ${px(y)}` : `M${px(x)} ${px(a)}`;
      for (let at = a; at + 12 <= b; at += 12) {
        d += isLong ? "q3 -6 6 0t6 0" : "q-6 3 0 6t0 6";
      }
      return path("plan-mark", d);
    }
    default:
      return "";
  }
}

/** @param {Thing} thing @param {View} view @returns {string} its name and size where they fit into it */
function label(thing, view) {
  const box = boundsOf(thing.polygon || []);
  const width = view.scale * (box.right - box.left);
  const height = view.scale * (box.back - box.front);
  const [x, y] = view.at([(box.left + box.right) / 2, (box.front + box.back) / 2]);
  const called = calledOf(thing);
  const size = `${figure(box.right - box.left)} × ${figure(box.back - box.front)}`;
  if (thing.kind !== "zones" || height < 26 || widthOf(called, TEXT_PX) > width) {
    if (widthOf(called, TEXT_PX) <= width && height >= 20) {
      return text("plan-text plan-text--name", x, y + 5, called);
    }
    const below = view.at([0, box.front])[1] + 15;
    return width > 14 || view.scale > 0.1 ? text("plan-text plan-text--name", x, below, called) : "";
  }
  const both = height > 44 && widthOf(size, TEXT_PX) < width;
  return text("plan-text plan-text--name", x, y + (both ? -3 : 5), called)
    + (both ? text("plan-text", x, y + 15, size) : "");
}

/** @param {{x: number, y: number, words: string}[]} places [mm] @param {View} view @returns {string} */
export function drawPhotographs(places, view) {
  return places.map(({ x, y, words }) => {
    const [cx, cy] = view.at([x, y]);
    return `<circle class="plan-photograph" cx="${px(cx)}" cy="${px(cy)}" r="12"/>`
      + text("plan-text plan-text--photograph", cx, cy + 5, words);
  }).join("");
}
