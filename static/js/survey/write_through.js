/**
 * Keep what is typed on the tablet within a second, whether or not there is a signal, and send it.
 *
 * The boxes of the page are what the surveyor sees; `known` is what the tablet holds. Whatever differs
 * between them is a change.
 */

import { answersHere, noteHeld } from "../tablet/carried.js";
import { addFields, items, onNews, takeInDrafts, unsentAnswers } from "../tablet/outbox.js";
import { keepDraft } from "../tablet/drafts.js";
import { changesBetween, setValue, valuesAsShown, valuesOf } from "./answers.js";

const PAUSE_MS = 500;

/**
 * @param {HTMLFormElement} form
 * @param {{survey: string, person: string, kind: string, section: string, form: number, isShell: boolean}} about
 * @param {() => void} onOffice called once the office holds all that was typed here
 * @returns {Promise<{keep: () => Promise<void>}>} `keep` writes at once what still waits
 */
export async function writeThrough(form, { isShell, ...about }, onOffice) {
  const { survey, section } = about;
  const known = isShell ? {} : valuesAsShown(form);
  const kept = {}; // name -> what stood before each change that is not yet sure to lie in the outbox
  let timer = null;
  let writing = Promise.resolve();
  let owed = false;
  let times = 0; // how often something was kept: what was read before it is older than the boxes

  function keep() {
    clearTimeout(timer);
    timer = null;
    const fields = changesBetween(known, valuesOf(form));
    if (!Object.keys(fields).length) return writing;
    for (const [name, [before, after]] of Object.entries(fields)) {
      known[name] = after;
      (kept[name] ??= []).push(before);
    }
    owed = true;
    times += 1;
    writing = writing.then(() => addFields(about, fields)).then(() => {
      for (const name of Object.keys(fields)) kept[name].shift();
      writeDraft();
    });
    return writing;
  }

  /** Write down at once whatever would be gone if the page went now. */
  function writeDraft() {
    const sure = { ...known };
    for (const [name, befores] of Object.entries(kept)) {
      if (befores.length) sure[name] = befores[0];
    }
    keepDraft(about, changesBetween(sure, valuesOf(form)));
  }

  /** Show what the tablet holds, but nothing over a box that is being typed in. */
  function show(answers) {
    for (const [name, text] of Object.entries(answers)) {
      if ((known[name] ?? "") === text) continue;
      const typed = valuesOf(form)[name];
      if (document.activeElement?.name === name || (typed ?? "") !== (known[name] ?? "")) continue;
      known[name] = text;
      setValue(form, name, text);
    }
  }

  await takeInDrafts();
  const at = Number(form.dataset.changedAt);
  const held = isShell ? await answersHere(survey, section) : await noteHeld(survey, section, known, at);
  const isBehind = Object.keys(changesBetween(known, { ...known, ...held })).length > 0; // and so are its figures
  show({ ...held, ...(await unsentAnswers(survey, section)) });
  owed = isBehind || (await items()).some((item) => item.survey === survey);
  form.addEventListener("input", () => {
    writeDraft();
    clearTimeout(timer);
    timer = setTimeout(keep, PAUSE_MS);
  });
  form.addEventListener("change", () => queueMicrotask(keep));
  addEventListener("pagehide", keep);
  document.addEventListener("visibilitychange", keep);
  onNews(settle);
  await keep();
  settle(); // what an earlier page left may have gone up before anybody listened here

  async function settle() {
    const before = times;
    await writing;
    const waits = (await items()).some((item) => item.survey === survey && item.state !== "refused");
    const answers = await answersHere(survey, section);
    if (waits || before !== times) return; // what was kept meanwhile will have news of its own
    if (timer === null) show(answers);
    if (!owed) return;
    owed = false;
    onOffice();
  }

  return { keep };
}
