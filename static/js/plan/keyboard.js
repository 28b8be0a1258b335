// @ts-check
/** The plan by the keyboard: things are tab stops, arrows move, Enter opens the numbers, Delete removes. */

import { nudged } from "./drags.js";
import { remove } from "./placing.js";
import { STEP_MM } from "./snapping.js";
import { nameOf } from "./words.js";

const FINE_MM = 10;

/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** @param {SVGSVGElement} drawing @param {HTMLElement} root @param {import("./plan_editor.js").PlanEditor} editor */
export function listenToKeys(drawing, root, editor) {
  drawing.addEventListener("focusin", event => {
    const stop = /** @type {Element} */ (event.target).closest("[data-key]");
    if (stop && stop.matches(":focus-visible")) {
      editor.choose(String(stop.getAttribute("data-key")));
    }
  });
  drawing.addEventListener("click", event => {
    const stop = /** @type {Element} */ (event.target).closest("[data-key]");
    if (stop && event.detail === 0) { // by a screen reader: fingers and mice are gestures
      editor.choose(String(stop.getAttribute("data-key")));
    }
  });
  drawing.addEventListener("keydown", event => {
    const stop = /** @type {Element} */ (event.target).closest("[data-key]");
    if (!stop || event.ctrlKey || event.metaKey || event.altKey) {
      return;
    }
    editor.choose(String(stop.getAttribute("data-key")));
    const arrow = ARROWS[event.key];
    if (arrow) {
      const step = event.shiftKey ? FINE_MM : STEP_MM;
      nudge(editor, [arrow[0] * step, arrow[1] * step]);
    } else if (event.key === "Enter" || event.key === " ") {
      editor.enterNumbers();
    } else if (event.key === "Delete" || event.key === "Backspace") {
      remove(editor);
    } else {
      return;
    }
    event.preventDefault();
  });
  root.addEventListener("keydown", event => {
    if (event.key === "Escape") {
      const key = editor.chosen;
      editor.lay();
      /** @type {SVGElement | null} */ (drawing.querySelector(`[data-key="${key}"]`))?.focus();
    }
  });
  document.addEventListener("keydown", event => {
    const at = /** @type {Element} */ (event.target);
    const typing = at.matches("input:not([type=radio], [type=checkbox]), textarea, select");
    const key = event.key.toLowerCase();
    if (!(event.ctrlKey || event.metaKey) || typing || (key !== "z" && key !== "y")) {
      return;
    }
    event.preventDefault();
    editor.takeBack(key === "y" || event.shiftKey);
  });
}

/** @param {import("./plan_editor.js").PlanEditor} editor @param {[number, number]} by [mm] */
function nudge(editor, by) {
  const thing = editor.thing(editor.chosen);
  const fields = thing && nudged(editor.plan, thing, by);
  if (thing && fields) {
    editor.change(thing, fields, "");
    const now = editor.thing(thing.key);
    editor.say(now ? `${nameOf(now)}.` : "");
  }
}
