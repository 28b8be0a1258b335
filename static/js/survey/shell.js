/** Fill a page that was kept on the tablet without any survey in it: its heads, its links, its answers. */

import { answersHere, carriedSurvey } from "../tablet/carried.js";
import { setLengthUnit } from "./asking.js";

const NOBODY = "S-0000-0000";

/** Return the number of the survey that the address of this page names. */
export function surveyOfAddress() {
  return decodeURIComponent(location.pathname.split("/")[2] ?? "");
}

/** Write the survey's own number, address and state of each step into the page. */
export async function fillShell(number) {
  for (const element of document.querySelectorAll(`[href*="${NOBODY}"], [action*="${NOBODY}"]`)) {
    const name = element.hasAttribute("href") ? "href" : "action";
    element.setAttribute(name, element.getAttribute(name).replaceAll(NOBODY, number));
  }
  const survey = await carriedSurvey(number);
  for (const place of document.querySelectorAll("[data-of-survey]")) {
    place.textContent = survey?.[place.dataset.ofSurvey] ?? "";
  }
  for (const element of document.querySelectorAll("[data-not-carried]")) element.hidden = Boolean(survey?.address);
  for (const element of document.querySelectorAll("[data-closed]")) element.hidden = (survey?.state ?? "open") === "open";
  const form = /** @type {HTMLFormElement | null} */ (document.querySelector("form#answers"));
  if (form && survey) setLengthUnit(form, survey.unit);
  if (survey) document.title = `${document.title} ${survey.address}`;
  await countMissing(number);
}

/** Beside each step, how many of the questions that a price needs stand open on this tablet. */
async function countMissing(number) {
  for (const step of document.querySelectorAll("[data-needed]")) {
    const { section, needed } = step.dataset;
    const answers = await answersHere(number, section);
    const open = needed.split(" ").filter((name) => name && !answers[name]);
    const told = step.querySelector("[data-told]");
    if (needed) told.textContent = open.length ? `${open.length} missing` : "done";
  }
}
