// @ts-check
/** Numbers typed or picked beside the drawing, on their way into the boxes of the form. */

import { boxesOf, setAnswer, tellChanged } from "./inputs.js";
import { answerName, write } from "./write.js";

/** @typedef {import("./plan_editor.js").PlanEditor} PlanEditor */
/** @typedef {import("./read.js").Thing} Thing */

/** Put into the form what is being typed, and draw it at once. @param {PlanEditor} editor @param {Thing} thing
 * @param {string} field @param {string} text */
export function typeInto(editor, thing, field, text) {
  const form = editor.findForm();
  const box = form && setAnswer(form, answerName(thing, field), text);
  editor.isWriting = true;
  box?.dispatchEvent(new Event("input", { bubbles: true }));
  editor.isWriting = false;
  editor.read();
  if (editor.view.isWhole) {
    editor.fit();
  }
  editor.draw();
}

/** Say that what was typed or picked is meant. A joist field that is named anew keeps its decks.
 * @param {PlanEditor} editor @param {Thing} thing @param {string} field @param {string} text */
export function settle(editor, thing, field, text) {
  const name = answerName(thing, field);
  const before = editor.history.now.get(name) || "";
  if (before === text) {
    return;
  }
  const answers = new Map([[name, text]]);
  if (thing.kind === "joists" && field === "name" && before) {
    for (const zone of editor.plan.zones.filter(each => each.over === before.trim())) {
      answers.set(answerName(zone, "joist_field"), text);
    }
  }
  editor.quietly(() => {
    const form = editor.findForm();
    const typed = form && boxesOf(form, name)[0];
    if (form && typed && typed.type !== "radio" && typed.value === text) {
      answers.delete(name); // it stands there since it was typed, and only its change is still to be told
      write(form, answers);
      tellChanged(typed);
    } else if (form) {
      write(form, answers);
    }
  });
}
