/** The surveys carried on this tablet, as the office last told them. */

import { items, tellNews, unsentAnswers } from "./outbox.js";
import { ask } from "./requests.js";
import { asked, inTransaction, read, readAll, write } from "./store.js";

const MOST_ASKED = 3;

/** Return a survey as the office last told it. */
export function carriedSurvey(number) {
  return read("surveys", number);
}

/** Return every survey carried, newest first. */
export async function carriedSurveys() {
  return (await readAll("surveys")).sort((one, other) => (one.number < other.number ? 1 : -1));
}

/** Fetch a survey from the office, if it answers, and return whether it did. */
export async function carry(number) {
  for (let times = 0; times < MOST_ASKED; times += 1) {
    const before = await lastReceipt();
    const answer = await ask(`/surveys/${number}/carried/`);
    if (answer.status !== 200) return false;
    if ((await lastReceipt()) !== before) continue; // told before the office had what it then took in
    await write("surveys", answer.told);
    tellNews();
    return true;
  }
  return true;
}

async function lastReceipt() {
  return (await read("facts", "last receipt"))?.value;
}

/** Take over the answers of a page that the office has just shown. */
export async function noteShown(number, kind, section, answers) {
  await inTransaction(["surveys"], "readwrite", async ({ surveys }) => {
    const survey = await asked(surveys.get(number));
    if (!survey) return;
    if (kind === "hazards") survey.hazards = { ...survey.hazards, ...answers };
    else survey.answers[section] = { ...survey.answers[section], ...answers };
    await asked(surveys.put(survey));
  });
}

/** Carry every open survey of the person, and let those go that are settled and have nothing unsent. */
export async function carryAll() {
  const answer = await ask("/surveys/carried/");
  if (answer.status !== 200) return;
  const wanted = answer.told;
  for (const number of wanted) await carry(number);
  const unsent = new Set((await items()).map((item) => item.survey));
  await inTransaction(["surveys"], "readwrite", async ({ surveys }) => {
    for (const number of await asked(surveys.getAllKeys())) {
      if (!wanted.includes(number) && !unsent.has(number)) await asked(surveys.delete(number));
    }
  });
  tellNews();
}

/**
 * Return the answers of one page as they stand on this tablet: the office's, and over them what is unsent.
 *
 * @returns {Promise<Record<string, string>>} name -> text
 */
export async function answersHere(number, kind, section) {
  const survey = await carriedSurvey(number);
  const held = kind === "hazards" ? survey?.hazards : survey?.answers[section];
  return { ...held, ...(await unsentAnswers(number, kind, section)) };
}
