// @ts-check
/** Undo and redo: every change of the boxes, drawn or typed, as what stood in all of them before and after. */

import { rowName, valuesOf } from "./inputs.js";
import { write } from "./write.js";

const MOST_STEPS = 200;

export class History {
  /** @param {() => HTMLFormElement | null} findForm */
  constructor(findForm) {
    this.findForm = findForm;
    /** @type {Map<string, string>[]} */
    this.before = [];
    /** @type {Map<string, string>[]} */
    this.after = [];
    this.now = this.read();
  }

  /** @returns {Map<string, string>} */
  read() {
    const form = this.findForm();
    return form ? valuesOf(form) : new Map();
  }

  /** Keep what stands in the boxes now as a step, if it differs from the last one. */
  keep() {
    const values = this.read();
    if (differing(this.now, values).size) {
      this.before.push(this.now);
      this.before.splice(0, this.before.length - MOST_STEPS);
      this.after = [];
      this.now = values;
    }
  }

  /** Take over what came into the boxes from elsewhere: no step of ours, and none of ours takes it back. */
  adopt() {
    const values = this.read();
    const come = differing(this.now, values);
    for (const step of [...this.before, ...this.after]) {
      come.forEach((value, name) => step.set(name, value));
    }
    this.now = values;
  }

  /** @returns {boolean} whether there was a step to take back */
  undo() {
    return this.step(this.before, this.after);
  }

  /** @returns {boolean} */
  redo() {
    return this.step(this.after, this.before);
  }

  /** @param {Map<string, string>[]} from @param {Map<string, string>[]} to @returns {boolean} */
  step(from, to) {
    this.keep();
    const form = this.findForm();
    const wanted = from.pop();
    if (!form || !wanted) {
      return false;
    }
    to.push(this.now);
    const back = differing(this.read(), wanted);
    this.now = wanted;
    write(form, back);
    this.now = this.read();
    return true;
  }
}

/**
 * @param {Map<string, string>} have @param {Map<string, string>} wanted
 * @returns {Map<string, string>} the answers that must be written to have what is wanted
 */
export function differing(have, wanted) {
  /** @type {Map<string, string>} */
  const answers = new Map();
  for (const [name, value] of wanted) {
    if ((have.get(name) || "") !== value) {
      answers.set(name, value);
    }
  }
  for (const [name, value] of have) {
    if (value && !wanted.has(name) && rowName(name)) {
      answers.set(name, "");
    }
  }
  return answers;
}
