// @ts-check
/** Which numbers of a thing can be typed beside the drawing, in which words they are asked for. */

import { boundsOf, isRightAngled, sidesOf, withSideOf } from "./shapes.js";

/**
 * @typedef {object} Box
 * @property {string} field @property {string} label
 * @property {"length" | "words" | "count" | "pick" | "centres"} how
 * @property {[string, string][]} [choices] value and words; beside a box they fill it
 * @property {number} [side] which side of a shape by corners it is
 */
/** @typedef {import("./read.js").Thing} Thing */

/** @type {[string, string][]} */
const RUNS = [["y", "Front to back"], ["x", "Left to right"]];
/** @type {Box} */
const CORNERS_BOX = { field: "corners", label: "Corners: from left gable, from front eaves; and so on", how: "words" };
/** @type {[string, string][]} */
const CORNERS = [
  ["front left", "Front left"], ["front right", "Front right"], ["back left", "Back left"], ["back right", "Back right"],
];
/** @type {[string, string][]} */
const SIDES = [["front", "Front"], ["back", "Back"], ["left", "Left"], ["right", "Right"]];

/** @param {string} field @param {string} label @returns {Box} */
function length(field, label) {
  return { field, label, how: "length" };
}

const PLACE = [length("left", "From left gable"), length("front", "From front eaves")];
const SIZE = [length("length", "Length, left to right"), length("depth", "Depth, front to back")];

/**
 * @param {Thing} thing @param {import("./read.js").Plan} plan @param {[string, string][]} kinds of keep-outs
 * @returns {Box[]}
 */
export function boxesFor(thing, plan, kinds) {
  switch (thing.kind) {
    case "outline":
      return outlineBoxes(thing);
    case "hatch":
      return [...PLACE, { field: "runs", label: "Long side runs", how: "pick", choices: RUNS }];
    case "joists":
      return joistBoxes(thing);
    case "keep_outs":
      return [
        ...(thing.byCorners ? [CORNERS_BOX] : [...PLACE, ...SIZE]),
        { field: "name", label: "Name", how: "words" },
        { field: "kind", label: "What it is", how: "pick", choices: kinds },
      ];
    default: {
      const names = plan.joists.map(field => field.name).filter(Boolean);
      return [
        ...(thing.byCorners ? [CORNERS_BOX] : [...PLACE, ...SIZE]),
        { field: "name", label: "Name", how: "words" },
        ...(names.length > 1 ? [/** @type {Box} */ ({
          field: "joist_field", label: "Over which joists", how: "pick", choices: names.map(name => [name, name]),
        })] : []),
      ];
    }
  }
}

/** @param {Thing} thing @returns {Box[]} */
function outlineBoxes(thing) {
  const whole = [
    length("outline_length", "Length, left to right gable"), length("outline_depth", "Depth, front to back eaves"),
  ];
  switch (thing.shape) {
    case "L":
      return [
        ...whole, length("missing_length", "Missing corner, length"), length("missing_depth", "Missing corner, depth"),
        { field: "missing_corner", label: "Which corner is missing", how: "pick", choices: CORNERS },
      ];
    case "T": {
      const upright = thing.numbers?.stem_side === "left" || thing.numbers?.stem_side === "right";
      return [
        ...whole, length("stem_from", upright ? "Stem, from front eaves" : "Stem, from left gable"),
        length("stem_width", "Stem, how wide"), length("stem_depth", "Stem, how far it sticks out"),
        { field: "stem_side", label: "The stem sticks out at", how: "pick", choices: SIDES },
      ];
    }
    case "corners": {
      const polygon = thing.polygon || [];
      if (!isRightAngled(polygon)) {
        return [CORNERS_BOX];
      }
      return sidesOf(polygon).map(([a, b], side) => ({
        field: `side ${side}`, side, how: "length", label: `Side ${side + 1}, ${wayOf(a, b)}`,
      }));
    }
    default:
      return whole;
  }
}

/** @param {[number, number]} a @param {[number, number]} b @returns {string} */
function wayOf([ax, ay], [bx, by]) {
  return ay === by ? (bx > ax ? "to the right" : "to the left") : by > ay ? "to the back" : "to the front";
}

/** @param {Thing} thing @param {number} side @param {number} mm @returns {import("./write.js").Fields} */
export function sideFields(thing, side, mm) {
  return { corners: withSideOf(thing.polygon || [], side, mm) };
}

/** @param {Thing} thing @param {number} side @returns {number} [mm] */
export function sideLength(thing, side) {
  const [a, b] = sidesOf(thing.polygon || [])[side];
  return Math.round(Math.hypot(b[0] - a[0], b[1] - a[1]));
}

/** @param {Thing} field @returns {Box[]} */
function joistBoxes(field) {
  const from = field.runs === "x" ? "front eaves" : "left gable";
  /** @type {Box[]} */
  const boxes = [length("first", `First joist, centre from ${from}`)];
  if (field.how === "spacings") {
    boxes.push({ field: "spacings", label: "Centres one after another", how: "centres" });
  } else if (field.how === "even") {
    boxes.push(
      { ...length("centres", "Centres"), choices: [["400 mm", "400"], ["450 mm", "450"], ["600 mm", "600"]] },
      { field: "count", label: "How many joists", how: "count" },
    );
  }
  boxes.push({ field: "runs_along", label: "Joists run", how: "pick", choices: RUNS });
  boxes.push({
    field: "name", label: "Name", how: "words",
    choices: [["Main roof", "Main roof"], ["Wing", "Wing"], ["Extension", "Extension"], ["Garage", "Garage"]],
  });
  return field.isPart && !field.byCorners ? [...boxes, ...PLACE, ...SIZE] : boxes;
}

/** @param {Thing} field @param {number} centresMm [mm]
 * @returns {import("./write.js").Fields} as many as there is room for */
export function evenFields(field, centresMm) {
  const box = field.polygon ? boundsOf(field.polygon) : null;
  const first = field.first ?? 0;
  const far = box ? (field.runs === "x" ? box.back : box.right) : first;
  return { centres: centresMm, count: Math.max(2, Math.floor((far - first) / centresMm) + 1) };
}
