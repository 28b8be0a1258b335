// @ts-check
/** The SVG on the page: its layers, redrawn only where they changed, and a focus stop for each thing. */

import { centresDimensions, chosenDimensions, outlineDimensions, runningDimensions } from "./dimensions.js";
import { drawJoists, drawNames, drawOutline, drawPhotographs, drawStanding, drawZones } from "./draw.js";
import { path, pathOf, px, text } from "./marks.js";
import { boundsOf } from "./shapes.js";
import { figure, nameOf } from "./words.js";

const SVG = "http://www.w3.org/2000/svg";
const LAYERS = ["outline", "zones", "joists", "standing", "names", "photographs", "dimensions"];
const OVER = ["chosen", "guides"];
const LEAST_FOCUS_PX = 48;

/** @typedef {import("./read.js").Plan} Plan */
/** @typedef {import("./view.js").View} View */
/**
 * @typedef {object} Shown what the surveyor is at
 * @property {string} chosen key of the chosen thing @property {import("./handles.js").Handle[]} handles
 * @property {import("./snapping.js").Guide[]} guides @property {[number, number][]} corners tapped so far [mm]
 * @property {{x: number, y: number, words: string}[]} photographs [mm]
 * @property {boolean} isHeld while nothing but the chosen thing changes
 */

/** @param {string} name @param {Record<string, string>} attributes @returns {SVGElement} */
function element(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) {
    made.setAttribute(key, value);
  }
  return made;
}

export class Paper {
  /** @param {SVGSVGElement} drawing */
  constructor(drawing) {
    this.drawing = drawing;
    const size = { width: "7", height: "7", patternUnits: "userSpaceOnUse" };
    const pattern = element("pattern", { id: "plan-hatching", ...size });
    pattern.append(element("path", { class: "plan-hatching-line", d: "M-1 8L8 -1" }));
    const definitions = element("defs", {});
    definitions.append(pattern);
    /** @type {Map<string, {group: SVGElement, drawn: string}>} */
    this.layers = new Map();
    this.stops = element("g", {});
    /** @type {Map<string, SVGElement>} */
    this.stopOf = new Map();
    const ground = element("rect", { class: "plan-ground", width: "100%", height: "100%" });
    const [under, over] = [LAYERS, OVER].map(names => names.map(name => this.layer(name)));
    drawing.append(definitions, ground, ...under, this.stops, ...over);
  }

  /** @param {string} name @returns {SVGElement} */
  layer(name) {
    const group = element("g", { class: "plan-layer", "aria-hidden": "true", "data-layer": name });
    this.layers.set(name, { group, drawn: "" });
    return group;
  }

  /** @param {string} name @param {string} drawn */
  put(name, drawn) {
    const layer = this.layers.get(name);
    if (layer && layer.drawn !== drawn) {
      layer.group.innerHTML = drawn;
      layer.drawn = drawn;
    }
  }

  /** @param {Plan} plan @param {View} view @param {Shown} shown */
  draw(plan, view, shown) {
    const { chosen } = shown;
    set(this.drawing, "data-view", `${view.scale} ${view.x} ${view.y}`);
    const thing = plan.things.find(each => each.key === chosen);
    const only = shown.isHeld && thing && thing.kind !== "outline" ? thing.kind : "";
    if (!only) {
      this.put("outline", drawOutline(plan, view));
    }
    if (!only || only === "zones") {
      this.put("zones", drawZones(plan, view, chosen));
    }
    if (!only || only === "joists") {
      this.put("joists", drawJoists(plan, view, chosen));
    }
    if (!only || only === "keep_outs" || only === "hatch") {
      this.put("standing", drawStanding(plan, view, chosen));
    }
    this.put("names", drawNames(plan, view));
    this.put("photographs", drawPhotographs(shown.photographs, view));
    this.put("dimensions", (plan.outline.polygon ? outlineDimensions(plan.outline.polygon, view) : "")
      + runningDimensions(plan, view) + plan.joists.map(field => centresDimensions(field, view)).join(""));
    this.put("chosen", (thing ? chosenDimensions(thing, view) : "") + shown.handles.map(drawHandle).join("")
      + drawCorners(shown.corners, view));
    this.put("guides", shown.guides.map(guide => this.drawGuide(guide, view)).join(""));
    if (shown.isHeld && thing && this.stopOf.has(chosen)) {
      this.drawStop(thing, view, chosen);
    } else {
      this.drawStops(plan, view, chosen);
    }
  }

  /** @param {import("./snapping.js").Guide} guide @param {View} view @returns {string} */
  drawGuide({ axis, mm, words }, view) {
    const [x, y] = view.at([mm, mm]);
    const said = words ? `${figure(mm)} ${words}` : figure(mm);
    const ink = "plan-text plan-text--guide plan-text--start";
    return axis === "x"
      ? path("plan-guide", `M${px(x)} 0V${view.height}`) + text(ink, x + 6, 22, said)
      : path("plan-guide", `M0 ${px(y)}H${view.width}`) + text(ink, 6, y - 7, said);
  }

  /** @param {import("./read.js").Thing} thing @param {View} view @param {string} chosen @returns {SVGElement} */
  drawStop(thing, view, chosen) {
    let stop = this.stopOf.get(thing.key);
    if (!stop) {
      stop = element("g", { class: "plan-stop", role: "button", tabindex: "0", "data-key": thing.key });
      stop.append(element("rect", { class: "plan-stop__frame" }));
      this.stopOf.set(thing.key, stop);
    }
    set(stop, "aria-label", nameOf(thing));
    set(stop, "aria-pressed", String(thing.key === chosen));
    frame(/** @type {Element} */ (stop.firstElementChild), thing, view);
    return stop;
  }

  /** Keep one focus stop for each thing, in the order of the table. @param {Plan} plan @param {View} view
   * @param {string} chosen */
  drawStops(plan, view, chosen) {
    const keys = new Set();
    let before = null;
    for (const thing of plan.things) {
      if (!thing.polygon) {
        continue;
      }
      keys.add(thing.key);
      const stop = this.drawStop(thing, view, chosen);
      const next = before ? before.nextSibling : this.stops.firstChild;
      if (next !== stop) {
        this.stops.insertBefore(stop, next);
      }
      before = stop;
    }
    for (const [key, stop] of this.stopOf) {
      if (!keys.has(key)) {
        stop.remove();
        this.stopOf.delete(key);
      }
    }
  }
}

/** @param {Element} stop @param {string} name @param {string} value */
function set(stop, name, value) {
  if (stop.getAttribute(name) !== value) {
    stop.setAttribute(name, value);
  }
}

/** @param {Element} rect @param {import("./read.js").Thing} thing @param {View} view */
function frame(rect, thing, view) {
  const box = boundsOf(thing.polygon || []);
  const [left, bottom] = view.at([box.left, box.front]);
  const [right, top] = view.at([box.right, box.back]);
  const width = Math.max(LEAST_FOCUS_PX, right - left + 8);
  const height = Math.max(LEAST_FOCUS_PX, bottom - top + 8);
  set(rect, "x", px((left + right - width) / 2));
  set(rect, "y", px((top + bottom - height) / 2));
  set(rect, "width", px(width));
  set(rect, "height", px(height));
}

/** @param {import("./handles.js").Handle} handle @returns {string} */
function drawHandle({ px: [x, y], sign }) {
  if (sign === "add") {
    return path("plan-handle plan-handle--add", pathOf([[x, y - 9], [x + 9, y], [x, y + 9], [x - 9, y]]));
  }
  const half = sign === "corner" ? 9 : 7;
  return path("plan-handle", `M${px(x - half)} ${px(y - half)}h${2 * half}v${2 * half}h${-2 * half}z`);
}

/** @param {[number, number][]} corners [mm] @param {View} view @returns {string} those tapped so far */
function drawCorners(corners, view) {
  const spots = corners.map(corner => view.at(corner));
  const lengths = spots.slice(1).map(([x, y], place) => {
    const [ax, ay] = spots[place];
    const mm = Math.hypot(corners[place + 1][0] - corners[place][0], corners[place + 1][1] - corners[place][1]);
    return text("plan-text plan-text--chosen", (x + ax) / 2, (y + ay) / 2 - 8, figure(mm));
  });
  const dots = spots.map(([x, y], place) => (
    `<circle class="plan-handle" cx="${px(x)}" cy="${px(y)}" r="${place ? 6 : 11}"/>`
  ));
  return (spots.length > 1 ? path("plan-drawn", pathOf(spots, true)) : "") + dots.join("") + lengths.join("");
}
