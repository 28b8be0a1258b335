// @ts-check
/** From the palette onto the paper: what is put down, put down once more, or taken away. */

import { newNumber } from "../survey/rows.js";
import { closed } from "./outlines.js";
import { boundsOf } from "./shapes.js";
import { hintOf, outlineFields, placed } from "./tools.js";
import { changeSpacings } from "./uneven.js";
import { nameOf } from "./words.js";
import { answerName, answersOf, emptied } from "./write.js";

/** @typedef {import("./plan_editor.js").PlanEditor} PlanEditor */
/** @typedef {import("./tools.js").Tool} Tool */

/** @type {Record<string, string>} what a tool asks before anything can be put down */
const ASKED = {
  outline: "Which shape is the loft?", joists: "Which way do the joists run?", keep_outs: "What stands there?",
};

/** Open the choices of a tool, or close them. @param {PlanEditor} editor @param {string} menu */
export function open(editor, menu) {
  const isOpen = editor.menu === menu;
  Object.assign(editor, { menu: isOpen ? "" : menu, tool: null, corners: [] });
  if (!isOpen && (menu === "zones" || (menu === "hatch" && !editor.plan.hatch?.polygon))) {
    arm(editor, { name: menu });
    return;
  }
  const isThere = menu === "hatch" || (menu === "outline" && Boolean(editor.plan.outline.shape));
  editor.chosen = !isOpen && isThere ? menu : "";
  editor.say((!isOpen && ASKED[menu]) || "");
  editor.refresh();
}

/** Make a tool ready for the next tap. @param {PlanEditor} editor @param {Tool} tool */
export function arm(editor, tool) {
  Object.assign(editor, { tool, menu: tool.name, chosen: "" });
  editor.refresh();
  editor.say(tool.name === "joists" && !editor.plan.outline.polygon ? "Draw the outline first." : hintOf(tool));
}

/** Put down what is ready. @param {PlanEditor} editor @param {[number, number]} at [mm] */
export function place(editor, at) {
  const { tool, plan } = editor;
  if (!tool || (tool.name === "joists" && !plan.outline.polygon)) {
    return;
  }
  put(editor, tool, placed(plan, tool, at));
}

/** @param {PlanEditor} editor @param {Tool} tool @param {import("./write.js").Fields} fields */
export function put(editor, tool, fields) {
  const thing = newThing(editor, tool);
  Object.assign(editor, { tool: null, menu: "", chosen: thing.key });
  if (tool.name === "keep_outs" || tool.name === "zones") {
    editor.last = { ...tool, size: [Number(fields.length), Number(fields.depth)] };
  }
  editor.commit(new Map([...answersOf(thing, fields), ...decksOverTheOnly(editor.plan, tool)]), "");
  const made = editor.thing(thing.key);
  editor.say(made ? `${nameOf(made)}.` : "");
}

/** While there is one joist field no deck need name it; once there is another they must.
 * @param {import("./read.js").Plan} plan @param {Tool} tool @returns {Map<string, string>} */
function decksOverTheOnly(plan, tool) {
  const [only, ...more] = plan.joists;
  if (tool.name !== "joists" || !only?.name || more.length) {
    return new Map();
  }
  return new Map(plan.zones.filter(zone => !zone.over).map(zone => [answerName(zone, "joist_field"), only.name]));
}

/** @param {PlanEditor} editor @param {Tool} tool */
export function newThing(editor, tool) {
  const form = editor.findForm();
  const kind = tool.name;
  const number = kind === "hatch" || kind === "outline" || !form ? 0 : newNumber(form, kind);
  return { kind, number, key: kind === "hatch" || kind === "outline" ? kind : `${kind}-${number}` };
}

/** Make ready what was put down last, or what is chosen, in the same size. @param {PlanEditor} editor */
export function again(editor) {
  const thing = editor.thing(editor.chosen);
  if (thing && thing.how === "spacings") {
    changeSpacings(editor, thing, gaps => [...gaps, gaps.at(-1) || 400]);
    return;
  }
  if (thing && thing.polygon && (thing.kind === "keep_outs" || thing.kind === "zones")) {
    const box = boundsOf(thing.polygon);
    editor.last = { name: thing.kind, what: thing.what, size: [box.right - box.left, box.back - box.front] };
  }
  if (editor.last) {
    arm(editor, { ...editor.last });
  }
}

/** @param {PlanEditor} editor */
export function putInTheMiddle(editor) {
  const outline = editor.plan.outline.polygon;
  const box = outline ? boundsOf(outline) : null;
  const seen = editor.view.under(editor.view.width / 2, editor.view.height / 2);
  place(editor, box && editor.view.isWhole ? [(box.left + box.right) / 2, (box.front + box.back) / 2] : seen);
  editor.sheet.enter();
}

/** @param {PlanEditor} editor @param {string} picked rectangle, L, T, square or corners */
export function pickShape(editor, picked) {
  const shape = picked === "square" ? "corners" : picked;
  const { plan } = editor;
  if (shape === "corners") {
    editor.rightAngles = picked === "square";
    if (!plan.outline.polygon) {
      tapCorners(editor);
      return;
    }
  }
  Object.assign(editor, { tool: null, corners: [], chosen: "outline", menu: "outline" });
  editor.view.isWhole = true;
  editor.change(plan.outline, outlineFields(shape, plan), "");
  editor.say(`${nameOf(editor.plan.outline)}. Drag its squares, or type its numbers.`);
}

/** Begin to tap the corners of the outline. @param {PlanEditor} editor */
export function tapCorners(editor) {
  editor.corners = [];
  arm(editor, { name: "outline" });
}

/** @param {PlanEditor} editor */
export function closeCorners(editor) {
  const polygon = closed(editor.corners, editor.rightAngles);
  if (!polygon.length) {
    editor.say("That is no shape yet: tap one more corner.");
    return;
  }
  Object.assign(editor, { corners: [], tool: null, chosen: "outline", menu: "outline" });
  editor.view.isWhole = true;
  editor.change(editor.plan.outline, { outline_kind: "corners", corners: polygon }, "");
  editor.say(`${nameOf(editor.plan.outline)}. Drag its corners; tap the middle of a side for another.`);
}

/** Take away the last corner tapped, or what is chosen. @param {PlanEditor} editor */
export function remove(editor) {
  if (editor.corners.length) {
    editor.corners.pop();
    editor.refresh();
    return;
  }
  const thing = editor.thing(editor.chosen);
  if (!thing) {
    return;
  }
  const inDrawing = editor.drawing.contains(document.activeElement);
  editor.chosen = "";
  editor.commit(emptied(editor.values, thing), `Removed: ${nameOf(thing)}. Undo brings it back.`);
  if (inDrawing) {
    /** @type {HTMLElement | null} */ (editor.root.querySelector('[data-plan-act="undo"]'))?.focus();
  }
}
