// @ts-check
/** The numbers of the chosen thing beside the drawing: boxes that write straight into those of the form. */

import { boxesFor, sideFields, sideLength } from "./boxes.js";
import { readCentres } from "./centres.js";
import { chipsOf, evenOrNot, pickOf } from "./chips.js";
import { made } from "./elements.js";
import { watchLengths } from "../survey/asking.js";
import { readLength, written } from "./lengths.js";
import { settle, typeInto } from "./typing.js";
import { answerName } from "./write.js";
import { calledOf, inWords } from "./words.js";

/** @typedef {import("./boxes.js").Box} Box */
/** @typedef {import("./read.js").Thing} Thing */

export class NumbersSheet {
  /** @param {HTMLFormElement} place @param {import("./plan_editor.js").PlanEditor} editor */
  constructor(place, editor) {
    this.place = place;
    this.editor = editor;
    this.made = "";
    /** @type {Map<string, {input: HTMLInputElement, told: HTMLElement, box: Box}>} */
    this.inputs = new Map();
    place.dataset.lengthUnit = editor.about.unit;
    place.addEventListener("submit", event => event.preventDefault());
    watchLengths(place);
  }

  /** Show the numbers of a thing, or nothing. @param {Thing | undefined} thing */
  show(thing) {
    this.place.hidden = !thing;
    if (!thing) {
      this.made = "";
      this.place.replaceChildren();
      return;
    }
    const boxes = boxesFor(thing, this.editor.plan, this.editor.kinds);
    const kind = JSON.stringify([thing.key, boxes, thing.how]);
    if (kind !== this.made) {
      this.made = kind;
      this.make(thing, boxes);
    }
    this.refresh(thing, boxes);
  }

  /** @param {Thing} thing @param {Box[]} boxes */
  make(thing, boxes) {
    const held = /** @type {HTMLElement | null} */ (document.activeElement?.closest("[data-field]"));
    const field = held && this.place.contains(held) ? held.dataset.field : "";
    this.inputs.clear();
    const head = made("h3", "plan-editor__head", calledOf(thing));
    const typed = made("div", "plan-editor__boxes");
    const picked = made("div", "plan-editor__picks");
    for (const box of boxes) {
      if (box.how === "pick") {
        picked.append(pickOf(this.editor, thing, box));
      } else {
        typed.append(this.box(thing, box));
      }
    }
    this.place.replaceChildren(head, typed, picked);
    if (thing.kind === "joists") {
      this.place.append(evenOrNot(this.editor, thing));
    }
    if (field) {
      /** @type {HTMLElement | null} */
      const again = this.place.querySelector(`[data-field="${field}"] :is(input, [aria-pressed="true"])`);
      again?.focus();
    }
  }

  /** @param {Thing} thing @param {Box} box @returns {HTMLElement} */
  box(thing, box) {
    const { editor } = this;
    const field = made("div", "field plan-editor__field");
    field.dataset.field = box.field;
    const id = `plan-number-${box.field.replace(/\W/g, "-")}`;
    const label = /** @type {HTMLLabelElement} */ (made("label", "field__label", box.label));
    label.htmlFor = id;
    const input = /** @type {HTMLInputElement} */ (made("input"));
    Object.assign(input, { id, type: "text", autocomplete: "off", spellcheck: false });
    const twin = editor.boxOf(thing, box.field);
    if (box.how === "length") {
      input.dataset.reads = "length"; // so that it is asked about as in the table
    }
    input.inputMode = twin?.inputMode || (box.how === "words" ? "text" : box.how === "count" ? "numeric" : "");
    const told = made("p", "field__understood");
    told.id = `${id}_understood`;
    input.setAttribute("aria-describedby", told.id);
    input.addEventListener("input", () => {
      if (box.side === undefined) {
        typeInto(editor, thing, box.field, input.value);
      }
      if (box.how === "centres") {
        tell(box, input, told, editor.about.unit);
      }
    });
    input.addEventListener("change", () => this.settle(thing.key, box, input));
    input.addEventListener("keydown", event => {
      if (event.key === "Enter") {
        event.preventDefault();
        input.dispatchEvent(new Event("change", { bubbles: true }));
        input.select();
      }
    });
    this.inputs.set(box.field, { input, told, box });
    field.append(label, input, told);
    const chips = chipsOf(editor, thing.key, box);
    if (chips.length) {
      const row = made("div", "plan-editor__chips");
      row.append(...chips);
      field.append(row);
    }
    return field;
  }

  /** @param {string} key @param {Box} box @param {HTMLInputElement} input */
  settle(key, box, input) {
    const thing = this.editor.thing(key);
    if (!thing) {
      return;
    }
    if (box.side === undefined) {
      settle(this.editor, thing, box.field, input.value);
      return;
    }
    const read = readLength(input.value, this.editor.about.unit);
    if (read.ok && read.mm > 0 && read.mm !== sideLength(thing, box.side)) {
      this.editor.change(thing, sideFields(thing, box.side, read.mm), `Side ${box.side + 1} is ${inWords(read.mm)}.`);
    }
  }

  /** @param {Thing} thing @param {Box[]} boxes */
  refresh(thing, boxes) {
    const { editor } = this;
    const head = this.place.querySelector(".plan-editor__head");
    if (head) {
      head.textContent = calledOf(thing);
    }
    for (const { input, told, box } of this.inputs.values()) {
      const text = box.side === undefined
        ? editor.textOf(thing, box.field).replace(/\n/g, "; ") : written(sideLength(thing, box.side));
      if (input.value !== text && (document.activeElement !== input || box.how === "centres")) {
        input.value = text;
      }
      if (document.activeElement !== input || box.how === "centres") {
        tell(box, input, told, editor.about.unit);
      }
    }
    for (const box of boxes.filter(each => each.how === "pick")) {
      const now = editor.values.get(answerName(thing, box.field)) || "";
      for (const chip of this.place.querySelectorAll(`[data-field="${box.field}"] [data-value]`)) {
        chip.setAttribute("aria-pressed", String(/** @type {HTMLElement} */ (chip).dataset.value === now));
      }
    }
  }

  /** Take the keyboard into the first box. */
  enter() {
    const first = /** @type {HTMLElement | null} */ (this.place.querySelector("input, button"));
    first?.focus();
    if (first instanceof HTMLInputElement) {
      first.select();
    }
  }
}

/** @param {Box} box @param {HTMLInputElement} input @param {HTMLElement} told what was understood, or asked
 * @param {string} unit */
function tell(box, input, told, unit) {
  let words = "";
  if (box.how === "length" && input.value.trim()) {
    const read = readLength(input.value, unit);
    words = read.ok ? `read as ${inWords(read.mm)}` : read.asks;
  } else if (box.how === "centres" && input.value.trim()) {
    const read = readCentres(input.value, unit);
    words = read.ok
      ? `${read.spacings.length + 1} joists, 0 to ${inWords(read.spacings.reduce((a, b) => a + b, 0))}` : read.asks;
  }
  if (told.textContent !== words) {
    told.textContent = words;
  }
}
