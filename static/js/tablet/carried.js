/** The surveys carried on this tablet, as the office last told them. */

import { items, tellNews, unsentAnswers } from "./outbox.js";
import { ask } from "./requests.js";
import { asked, inTransaction, read, readAll, write } from "./store.js";

const MOST_ASKED = 3;

const nothing = () => ({ answers: {}, times: {}, photographs: [] });

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
  const answer = await ask(`/surveys/${number}/carried/`);
  if (answer.status !== 200) return false;
  const { answers, hazards, changed_at: at, ...about } = answer.told;
  await inTransaction(["surveys"], "readwrite", async ({ surveys }) => {
    const survey = { ...nothing(), ...(await asked(surveys.get(number))), ...about };
    for (const [section, told] of Object.entries(answers)) hold(survey, section, told, at);
    hold(survey, "hazards", hazards, at);
    await asked(surveys.put(survey));
  });
  tellNews();
  return true;
}

/**
 * Take over answers that the office has: those of a page that it showed, or of a change that it took.
 *
 * @param {number} at when the survey was last changed as it told them, by the office's clock
 * @returns {Promise<Record<string, string>>} what the office holds of the same questions, as far as is known here
 */
export async function noteHeld(number, section, answers, at) {
  let held = answers;
  await inTransaction(["surveys"], "readwrite", async ({ surveys }) => {
    const survey = (await asked(surveys.get(number))) ?? { ...nothing(), number };
    hold(survey, section, answers, at);
    held = Object.fromEntries(Object.keys(answers).map((name) => [name, survey.answers[section][name]]));
    await asked(surveys.put(survey));
  });
  return held;
}

/** A page may have been made before a change was taken, and come after its receipt: the newer one stands. */
function hold(survey, section, answers, at) {
  const [held, times] = [(survey.answers[section] ??= {}), (survey.times[section] ??= {})];
  for (const [name, text] of Object.entries(answers)) {
    if ((times[name] ?? 0) > at) continue;
    held[name] = text;
    times[name] = at;
  }
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
export async function answersHere(number, section) {
  const survey = await carriedSurvey(number);
  return { ...survey?.answers[section], ...(await unsentAnswers(number, section)) };
}
