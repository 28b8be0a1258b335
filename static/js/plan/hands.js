// @ts-check
/** What fingers do on the paper: choose, take hold, draw, tap corners. */

import { drawingOf, movingOf, stretchingOf } from "./drags.js";
import { REACH_PX, handlesOf } from "./handles.js";
import { handleUnder, thingsUnder } from "./hits.js";
import { closeCorners, newThing, place, put } from "./placing.js";
import { stepped } from "./snapping.js";
import { tidied, withCornerAdded } from "./shapes.js";
import { overField, saidOf } from "./tools.js";
import { tapNext } from "./uneven.js";
import { nameOf } from "./words.js";
import { answersOf } from "./write.js";

/** @typedef {import("./plan_editor.js").PlanEditor} PlanEditor */
/** @typedef {import("./gestures.js").Hand} Hand */
/** @typedef {import("./read.js").Thing} Thing */

const STEP_IN_MM = 500;

/** @param {PlanEditor} editor @returns {import("./gestures.js").Paper} */
export function handsOn(editor) {
  return {
    touch: () => {
      if (document.activeElement instanceof HTMLInputElement) {
        document.activeElement.blur();
      }
    },
    tap: (px, py) => tap(editor, px, py),
    longPress: (px, py) => longPress(editor, px, py),
    afterLongPress: () => editor.enterNumbers(),
    take: (px, py, pointer) => take(editor, px, py, pointer),
    pan: (dx, dy) => {
      editor.view.move(dx, dy);
      editor.draw();
    },
    zoom: (times, px, py) => editor.zoom(times, px, py),
  };
}

/** @param {PlanEditor} editor @param {number} px @param {number} py */
function tap(editor, px, py) {
  const at = editor.view.under(px, py);
  if (editor.tool) {
    if (editor.tool.name === "outline") {
      tapCorner(editor, px, py);
    } else {
      place(editor, at);
    }
    return;
  }
  const chosen = editor.thing(editor.chosen);
  const handle = chosen && handleUnder(handlesOf(chosen, editor.view, editor.rightAngles), chosen, editor.view, px, py);
  if (chosen && handle) {
    if (handle.sign === "add" && handle.side !== undefined && chosen.polygon) {
      const corners = withCornerAdded(chosen.polygon, handle.side, STEP_IN_MM, editor.rightAngles);
      editor.change(chosen, { corners }, "One corner more.");
    }
    return;
  }
  const under = thingsUnder(editor.plan, editor.view, px, py);
  if ((!under.length || under[0].kind === "joists") && tapNext(editor, at)) {
    return;
  }
  const last = under.findIndex(thing => thing.key === editor.chosen); // tapped again, the one below it is meant
  const next = under[(last + 1) % (under.length || 1)];
  if (next) {
    editor.choose(next.key);
    editor.say(`${nameOf(next)}.`);
  } else {
    editor.lay();
    editor.say("");
  }
}

/** @param {PlanEditor} editor @param {number} px @param {number} py */
function tapCorner(editor, px, py) {
  const { corners, view } = editor;
  const first = corners[0] && view.at(corners[0]);
  if (corners.length > 2 && Math.hypot(first[0] - px, first[1] - py) <= REACH_PX) {
    closeCorners(editor);
    return;
  }
  const [x, y] = view.under(px, py).map(stepped);
  /** @type {[number, number]} */
  const corner = [x, y];
  const last = corners.at(-1);
  if (last && editor.rightAngles) {
    const axis = Math.abs(x - last[0]) > Math.abs(y - last[1]) ? 1 : 0;
    corner[axis] = last[axis];
    const reach = view.mm(REACH_PX / 2);
    if (Math.abs(corner[1 - axis] - corners[0][1 - axis]) < reach) {
      corner[1 - axis] = corners[0][1 - axis];
    }
  }
  corners.push(corner);
  editor.refresh();
}

/** @param {PlanEditor} editor @param {number} px @param {number} py */
function longPress(editor, px, py) {
  const [thing] = thingsUnder(editor.plan, editor.view, px, py);
  if (thing) {
    editor.choose(thing.key);
    editor.say(`${nameOf(thing)}.`);
  }
}

/** @param {PlanEditor} editor @param {number} px @param {number} py @param {string} pointer @returns {Hand | null} */
function take(editor, px, py, pointer) {
  const { plan, view, tool } = editor;
  const from = view.under(px, py);
  if (tool) {
    if (tool.name !== "zones" && tool.name !== "keep_outs") {
      return null;
    }
    const thing = newThing(editor, tool);
    const said = tool.name === "keep_outs" ? saidOf(tool) : {};
    const also = answersOf(thing, said);
    return handOf(editor, thing, drawingOf(plan, /** @type {any} */ (thing), view, from), also, fields => {
      const middle = /** @type {[number, number]} */ ([
        Number(fields.left) + Number(fields.length) / 2, Number(fields.front) + Number(fields.depth) / 2,
      ]);
      put(editor, tool, {
        ...(tool.name === "keep_outs" ? said : overField(plan, middle)), ...fields,
      });
    });
  }
  const chosen = editor.thing(editor.chosen);
  const handle = chosen && handleUnder(handlesOf(chosen, view, editor.rightAngles), chosen, view, px, py);
  if (chosen && handle && handle.axes) {
    return handOf(editor, chosen, stretchingOf(plan, chosen, handle, view, from));
  }
  const under = thingsUnder(plan, view, px, py);
  const thing = under.find(each => each.key === editor.chosen) || (pointer === "mouse" ? under[0] : undefined);
  if (!thing || !thing.polygon || thing.kind === "outline" || thing.kind === "joists") {
    return null;
  }
  editor.choose(thing.key);
  return handOf(editor, thing, movingOf(plan, thing, view, from));
}

/**
 * @param {PlanEditor} editor @param {Pick<Thing, "kind" | "number" | "key">} thing
 * @param {import("./drags.js").Drag} drag @param {Map<string, string>} [also] held besides
 * @param {(fields: import("./write.js").Fields) => void} [settle] @returns {Hand}
 */
function handOf(editor, thing, drag, also, settle) {
  /** @type {import("./write.js").Fields | null} */
  let fields = null;
  return {
    move(px, py) {
      const dragged = drag(editor.view.under(px, py));
      fields = dragged.fields;
      editor.held = new Map([...(also || []), ...answersOf(thing, fields)]);
      editor.guides = dragged.guides;
      editor.read();
      editor.draw();
    },
    end() {
      editor.held = null;
      editor.guides = [];
      if (fields && settle) {
        settle(fields);
      } else if (fields) {
        const corners = fields.corners;
        editor.change(thing, Array.isArray(corners) ? { corners: tidied(corners) } : fields, "");
        const now = editor.thing(thing.key);
        editor.say(now ? `${nameOf(now)}.` : "");
      }
    },
    cancel() {
      editor.held = null;
      editor.guides = [];
      editor.refresh();
    },
  };
}
