// @ts-check
/** Changes of the drawing into the boxes of the form, each changed box told once. */

import { ensureRow } from "../survey/rows.js";
import { rowName, setAnswer, tellChanged, valuesOf } from "./inputs.js";
import { writeCentres } from "./centres.js";
import { written, writtenCorners } from "./lengths.js";

/** @typedef {import("./read.js").Thing} Thing */
/** @typedef {Record<string, number | string | import("./shapes.js").Point[]>} Fields what changes, by field */

const COUNTED = new Set(["count", "litres", "carried_by", "binder_supports"]);

/** @param {Pick<Thing, "kind" | "number">} thing @param {string} field @returns {string} the answer's name */
export function answerName(thing, field) {
  if (thing.kind === "outline") {
    return field;
  }
  return thing.kind === "hatch" ? `hatch_${field}` : `${thing.kind}-${thing.number}-${field}`;
}

/**
 * Put changes of a thing into words, by the names of the answers.
 *
 * @param {Pick<Thing, "kind" | "number">} thing @param {Fields} fields lengths in mm
 * @returns {Map<string, string>}
 */
export function answersOf(thing, fields) {
  /** @type {Map<string, string>} */
  const answers = new Map();
  for (const [field, value] of Object.entries(fields)) {
    let text = String(value);
    if (field === "spacings" && Array.isArray(value)) {
      text = writeCentres(/** @type {any} */ (value));
    } else if (Array.isArray(value)) {
      text = value.length ? writtenCorners(value) : "";
    } else if (typeof value === "number" && !COUNTED.has(field)) {
      text = written(value);
    }
    answers.set(answerName(thing, field), text);
  }
  return answers;
}

/**
 * Write answers into the form. All boxes are set before any is told, so that whoever hears of the first one
 * reads the whole change.
 *
 * @param {HTMLFormElement} form @param {Map<string, string>} answers
 * @returns {number} how many boxes changed
 */
export function write(form, answers) {
  /** @type {Map<string, {kind: string, number: number}>} */
  const touched = new Map();
  const changed = [];
  for (const [name, answer] of answers) {
    const row = rowName(name);
    if (row) {
      touched.set(`${row.kind}-${row.number}`, row);
      if (answer && !form.querySelector(`[name^="${row.kind}-${row.number}-"]`)) {
        hideBlankRows(form, row.kind);
        ensureRow(form, row.kind, row.number);
      }
    }
    const box = setAnswer(form, name, answer);
    if (box) {
      changed.push(box);
    }
  }
  const values = valuesOf(form);
  for (const { kind, number } of touched.values()) {
    const box = form.querySelector(`[name^="${kind}-${number}-"]`);
    const row = /** @type {HTMLElement | null} */ (box && box.closest(".row"));
    if (row) {
      row.hidden = !saysSomething(values, kind, number);
    }
  }
  changed.forEach(tellChanged);
  return changed.length;
}

/** The table begins with a row to write in; beside rows that are drawn it would only be in the way.
 * @param {HTMLFormElement} form @param {string} kind */
function hideBlankRows(form, kind) {
  const values = valuesOf(form);
  for (const row of /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll(".row:not([hidden])"))) {
    const named = /** @type {HTMLInputElement | null} */ (row.querySelector(`[name^="${kind}-"]`));
    const found = named && rowName(named.name);
    if (found && !row.contains(document.activeElement) && !saysSomething(values, kind, found.number)) {
      row.hidden = true;
    }
  }
}

/** @param {Map<string, string>} values @param {string} kind @param {number} number @returns {boolean} */
export function saysSomething(values, kind, number) {
  const start = `${kind}-${number}-`;
  for (const [name, value] of values) {
    if (value && name.startsWith(start)) {
      return true;
    }
  }
  return false;
}

/** @param {Map<string, string>} values @param {Thing} thing @returns {Map<string, string>} all of it emptied */
export function emptied(values, thing) {
  /** @type {Map<string, string>} */
  const answers = new Map();
  for (const name of values.keys()) {
    const row = rowName(name);
    const ofThing = row
      ? row.kind === thing.kind && row.number === thing.number
      : (thing.kind === "hatch" && /^hatch_(left|front|runs)$/.test(name))
        || (thing.kind === "outline" && /^(outline_|missing_|stem_|corners$)/.test(name));
    if (ofThing) {
      answers.set(name, "");
    }
  }
  return answers;
}
