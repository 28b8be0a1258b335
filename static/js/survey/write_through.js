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
  let timer = null;
  let writing = Promise.resolve();
  let owed = false;
  let times = 0; // how often something was kept: what was read before it is older than the boxes

  function keep() {
    clearTimeout(timer);
    timer = null;
    const fields = changesBetween(known, valuesOf(form));
    if (!Object.keys(fields).length) return writing;
    for (const [name, [, after]] of Object.entries(fields)) known[name] = after;
    owed = true;
    times += 1;
    writing = writing.then(() => addFields(about, fields)).then(() => keepDraft(about, changesBetween(known, valuesOf(form))));
    return writing;
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
  show({ ...held, ...(await unsentAnswers(survey, section)) });
  owed = (await items()).some((item) => item.survey === survey);
  form.addEventListener("input", () => {
    keepDraft(about, changesBetween(known, valuesOf(form)));
    clearTimeout(timer);
    timer = setTimeout(keep, PAUSE_MS);
  });
  form.addEventListener("change", () => queueMicrotask(keep));
  addEventListener("pagehide", keep);
  await keep();
  document.addEventListener("visibilitychange", keep);
  onNews(async () => {
    const before = times;
    await writing;
    const waits = (await items()).some((item) => item.survey === survey && item.state !== "refused");
    if (waits) return;
    const answers = await answersHere(survey, section);
    if (timer === null && before === times) show(answers);
    if (!owed) return;
    owed = false;
    onOffice();
  });
  return { keep };
}
