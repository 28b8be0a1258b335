// @ts-check
/** The plan over the boxes of the form: what is chosen, what is held, and every change on its way into them. */

import { aboutOf, keepOutKinds, photographPlaces } from "./about.js";
import { handlesOf } from "./handles.js";
import { History } from "./history.js";
import { boxesOf, valuesOf } from "./inputs.js";
import { millimetres } from "./lengths.js";
import { NumbersSheet } from "./numbers_sheet.js";
import { Palette } from "./palette.js";
import { Paper } from "./paper.js";
import { readPlan } from "./read.js";
import { boundsOf, isRightAngled } from "./shapes.js";
import { View } from "./view.js";
import { answerName, answersOf, write } from "./write.js";

/** @typedef {import("./read.js").Thing} Thing */

const BARE_PAPER = { left: 0, front: 0, right: 12000, back: 8000 };

export class PlanEditor {
  /** @param {HTMLElement} root @param {() => HTMLFormElement | null} findForm */
  constructor(root, findForm) {
    this.root = root;
    this.findForm = findForm;
    this.drawing = /** @type {SVGSVGElement} */ (/** @type {unknown} */ (root.querySelector("[data-plan-drawing]")));
    this.said = /** @type {HTMLElement} */ (root.querySelector("[data-plan-said]"));
    this.about = aboutOf(root);
    this.kinds = keepOutKinds(findForm());
    this.view = new View();
    this.history = new History(findForm);
    this.chosen = "";
    this.menu = "";
    /** @type {import("./tools.js").Tool | null} */
    this.tool = null;
    /** @type {import("./tools.js").Tool | null} */
    this.last = null;
    /** @type {[number, number][]} */
    this.corners = [];
    this.rightAngles = true;
    /** @type {Map<string, string> | null} what a finger holds, laid over what stands in the boxes */
    this.held = null;
    /** @type {Map<string, string> | null} */
    this.under = null;
    /** @type {import("./snapping.js").Guide[]} */
    this.guides = [];
    this.isWriting = false;
    this.values = new Map();
    this.photographs = photographPlaces();
    this.plan = readPlan(this.values, this.about);
    this.paper = new Paper(this.drawing);
    this.palette = new Palette(root, this);
    this.sheet = new NumbersSheet(/** @type {HTMLFormElement} */ (root.querySelector("[data-plan-numbers]")), this);
    this.read();
    this.rightAngles = !this.plan.outline.polygon || isRightAngled(this.plan.outline.polygon);
  }

  /** Read the boxes again. */
  read() {
    const form = this.findForm();
    // While a finger holds something nothing else changes, and the boxes are many.
    const under = (this.held && this.under) || (form ? valuesOf(form) : new Map());
    this.under = this.held ? under : null;
    this.values = this.held ? new Map([...under, ...this.held]) : under;
    this.plan = readPlan(this.values, this.about);
    if (!this.plan.things.some(thing => thing.key === this.chosen)) {
      this.chosen = "";
    }
  }

  /** @param {string} key @returns {Thing | undefined} */
  thing(key) {
    return this.plan.things.find(each => each.key === key);
  }

  /** Draw the paper alone, as often as a finger moves. */
  draw() {
    const thing = this.thing(this.chosen);
    this.paper.draw(this.plan, this.view, {
      chosen: this.chosen,
      handles: thing && !this.tool ? handlesOf(thing, this.view, this.rightAngles) : [],
      guides: this.guides, corners: this.corners, photographs: this.photographs,
      isHeld: this.held !== null,
    });
    if (thing && this.held) {
      this.sheet.show(thing);
    }
  }

  /** Read and draw everything again, the buttons and the numbers too. */
  refresh() {
    this.photographs = photographPlaces();
    this.read();
    if (this.view.isWhole) {
      this.fit();
    }
    this.draw();
    this.palette.refresh();
    this.sheet.show(this.tool ? undefined : this.thing(this.chosen));
  }

  fit() {
    this.view.showWhole(this.plan.outline.polygon ? boundsOf(this.plan.outline.polygon) : BARE_PAPER);
  }

  /** @param {string} words told to whoever reads or hears */
  say(words) {
    this.said.textContent = words;
  }

  /** @param {string} key */
  choose(key) {
    if (this.chosen !== key || this.tool) {
      this.chosen = key;
      this.tool = null;
      this.menu = key === "outline" && this.menu === "outline" ? "outline" : "";
      this.refresh();
    }
  }

  /** Lay down what is chosen and what was about to be put on the plan. */
  lay() {
    Object.assign(this, { chosen: "", tool: null, menu: "", corners: [] });
    this.refresh();
  }

  /** @param {() => void} act while which the form's own events are ours */
  quietly(act) {
    this.isWriting = true;
    try {
      act();
    } finally {
      this.isWriting = false;
    }
    this.history.keep();
    this.refresh();
  }

  /** @param {Map<string, string>} answers by their names @param {string} words what was done */
  commit(answers, words) {
    this.held = null;
    this.guides = [];
    this.quietly(() => {
      const form = this.findForm();
      if (form) {
        write(form, answers);
      }
    });
    this.say(words);
  }

  /** @param {Pick<Thing, "kind" | "number">} thing @param {import("./write.js").Fields} fields @param {string} words */
  change(thing, fields, words) {
    const form = this.findForm();
    const now = form ? valuesOf(form) : this.values;
    const answers = answersOf(thing, fields);
    for (const [field, value] of Object.entries(fields)) {
      const name = answerName(thing, field);
      if (typeof value === "number" && millimetres(now.get(name) || "", this.about.unit) === value) {
        answers.delete(name); // it is written there already, in the surveyor's own way
      }
    }
    this.commit(answers, words);
  }

  /** @param {Thing} thing @param {string} field @returns {HTMLInputElement | undefined} its box in the form */
  boxOf(thing, field) {
    const form = this.findForm();
    return form ? boxesOf(form, answerName(thing, field))[0] : undefined;
  }

  /** @param {Thing} thing @param {string} field @returns {string} what stands in its box */
  textOf(thing, field) {
    return this.values.get(answerName(thing, field)) || "";
  }

  /** @param {boolean} again whether to do again what was taken back */
  takeBack(again) {
    let done = false;
    this.quietly(() => {
      done = again ? this.history.redo() : this.history.undo();
    });
    this.say(done ? (again ? "Done again." : "Taken back.") : "Nothing to take back.");
  }

  /** Take the keyboard to the numbers of what is chosen. */
  enterNumbers() {
    this.tool = null;
    this.refresh();
    this.sheet.enter();
  }

  /** @param {number} times @param {number} [px] @param {number} [py] */
  zoom(times, px, py) {
    this.view.zoom(times, px, py);
    this.draw();
  }

  showWhole() {
    this.fit();
    this.draw();
  }
}
