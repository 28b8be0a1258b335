// @ts-check
/** Buttons beside the numbers that spare a gloved hand the typing: usual values, one of a few, even or uneven. */

import { evenFields } from "./boxes.js";
import { button, made } from "./elements.js";
import { settle } from "./typing.js";
import { changeHow, changeSpacings } from "./uneven.js";
import { inWords } from "./words.js";

/** @typedef {import("./boxes.js").Box} Box */
/** @typedef {import("./plan_editor.js").PlanEditor} PlanEditor */
/** @typedef {import("./read.js").Thing} Thing */

/** @param {PlanEditor} editor @param {string} key @param {(thing: Thing) => void} act @returns {() => void} it, on the
 * thing as it is when pressed */
function on(editor, key, act) {
  return () => {
    const thing = editor.thing(key);
    if (thing) {
      act(thing);
    }
  };
}

/** @param {PlanEditor} editor @param {string} key @param {Box} box @returns {HTMLButtonElement[]} what fills a box with
 * one tap */
export function chipsOf(editor, key, box) {
  if (box.how === "centres") {
    return [
      ...[400, 450, 600].map(mm => button(`+ ${mm}`,
        on(editor, key, field => changeSpacings(editor, field, gaps => [...gaps, mm])))),
      button("Last one off", on(editor, key, field => changeSpacings(editor, field, gaps => gaps.slice(0, -1)))),
    ];
  }
  return (box.choices || []).map(([value, words]) => button(words, on(editor, key, thing => {
    if (box.field === "centres") {
      editor.change(thing, evenFields(thing, Number(words)), `Centres ${inWords(Number(words))}.`);
    } else {
      settle(editor, thing, box.field, value);
    }
  })));
}

/** @param {PlanEditor} editor @param {Thing} thing @param {Box} box @returns {HTMLElement} one of a few */
export function pickOf(editor, thing, box) {
  const group = made("div", "plan-editor__pick");
  group.dataset.field = box.field;
  group.setAttribute("role", "group");
  group.setAttribute("aria-label", box.label);
  const row = made("div", "plan-editor__chips");
  for (const [value, words] of box.choices || []) {
    const chip = button(words, on(editor, thing.key, now => settle(editor, now, box.field, value)), false);
    chip.dataset.value = value;
    row.append(chip);
  }
  group.append(made("p", "field__label", box.label), row);
  return group;
}

/** @param {PlanEditor} editor @param {Thing} field @returns {HTMLElement} the way from even centres to a list and back */
export function evenOrNot(editor, field) {
  const row = made("div", "plan-editor__chips");
  const isEven = field.how === "even";
  row.append(button(isEven ? "Uneven: one after another" : "Even centres",
    on(editor, field.key, now => changeHow(editor, now, isEven ? "spacings" : "even"))));
  return row;
}
