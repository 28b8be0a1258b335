// @ts-check
/** The buttons under the drawing: what to draw next, in which kind, and what is done with what is chosen. */

import { button } from "./elements.js";
import { again, arm, closeCorners, open, pickShape, putInTheMiddle, remove, tapCorners } from "./placing.js";
import { OLD_BOARDS } from "./tools.js";
import { capital } from "./words.js";

/** @typedef {import("./plan_editor.js").PlanEditor} PlanEditor */

/** @type {[string, string][]} */
const SHAPES = [
  ["rectangle", "Rectangle"], ["L", "L-shape"], ["T", "T-shape"], ["square", "Right-angled"], ["corners", "Any shape"],
];

export class Palette {
  /** @param {HTMLElement} root @param {PlanEditor} editor */
  constructor(root, editor) {
    this.root = root;
    this.editor = editor;
    this.options = /** @type {HTMLElement} */ (root.querySelector("[data-plan-options]"));
    this.drawn = "";
    for (const element of /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-plan-act]"))) {
      element.addEventListener("click", () => this.act(String(element.dataset.planAct)));
    }
    for (const element of /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-plan-tool]"))) {
      element.addEventListener("click", () => open(editor, String(element.dataset.planTool)));
    }
  }

  /** @param {string} act */
  act(act) {
    const { editor } = this;
    /** @type {Record<string, () => void>} */
    const acts = {
      undo: () => editor.takeBack(false),
      redo: () => editor.takeBack(true),
      numbers: () => editor.enterNumbers(),
      again: () => again(editor),
      remove: () => remove(editor),
      closer: () => editor.zoom(1.5),
      farther: () => editor.zoom(1 / 1.5),
      whole: () => editor.showWhole(),
    };
    acts[act]?.();
  }

  /** Draw what can be pressed now. */
  refresh() {
    const { editor, root } = this;
    const chosen = Boolean(editor.chosen);
    const canAgain = Boolean(editor.last) || /^(keep_outs|zones)/.test(editor.chosen)
      || editor.thing(editor.chosen)?.how === "spacings";
    /** @type {Record<string, boolean>} */
    const can = {
      undo: editor.history.before.length > 0, redo: editor.history.after.length > 0,
      numbers: chosen, again: canAgain, remove: chosen || editor.corners.length > 0,
    };
    for (const element of /** @type {NodeListOf<HTMLButtonElement>} */ (root.querySelectorAll("[data-plan-act]"))) {
      element.disabled = can[String(element.dataset.planAct)] === false;
    }
    for (const element of /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-plan-tool]"))) {
      element.setAttribute("aria-pressed", String(element.dataset.planTool === editor.menu));
    }
    const { menu, tool, plan, rightAngles, corners } = editor;
    // Never drawn anew for a number: the button under a finger would be gone before it is lifted.
    const kind = JSON.stringify([menu, tool, plan.outline.shape, rightAngles, corners.length > 2]);
    if (kind !== this.drawn) {
      this.drawn = kind;
      const held = this.options.contains(document.activeElement) ? document.activeElement?.textContent : "";
      this.options.replaceChildren(...this.choices());
      const again = [...this.options.querySelectorAll("button")].find(each => held && each.textContent === held);
      again?.focus();
    }
    this.options.hidden = !this.options.childElementCount;
  }

  /** @returns {HTMLElement[]} the choices of the tool that is open */
  choices() {
    const { editor } = this;
    const { tool, plan } = editor;
    const what = tool ? tool.what : "";
    /** @type {HTMLElement[]} */
    let made = [];
    if (editor.menu === "outline") {
      const now = plan.outline.shape === "corners" && editor.rightAngles ? "square" : plan.outline.shape;
      made = SHAPES.map(([shape, words]) => button(words, () => pickShape(editor, shape), shape === now));
      if (plan.outline.shape === "corners") {
        made.push(button("Tap the corners anew", () => tapCorners(editor)));
      }
      if (editor.corners.length > 2) {
        made.push(button("Close the shape", () => closeCorners(editor)));
      }
    } else if (editor.menu === "joists") {
      made = [["y", "Front to back"], ["x", "Left to right"]]
        .map(([runs, words]) => button(words, () => arm(editor, { name: "joists", what: runs }), what === runs));
    } else if (editor.menu === "keep_outs") {
      made = editor.kinds.map(([kind]) => button(
        capital(kind), () => arm(editor, { name: "keep_outs", what: kind }), what === kind && !tool?.called,
      ));
      made.push(button("Existing boards", () => arm(editor, { ...OLD_BOARDS }), Boolean(tool?.called)));
    }
    const propose = editor.menu === "zones" && editor.findForm()?.querySelector('button[value="propose zones"]');
    if (propose instanceof HTMLElement) {
      made.push(button("Propose one", () => propose.click()));
    }
    if (tool && tool.name !== "outline") {
      made.push(button("Put it in the middle", () => putInTheMiddle(editor)));
    }
    return made;
  }
}
