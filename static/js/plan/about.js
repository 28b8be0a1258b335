// @ts-check
/** What the drawing needs from other pages of the visit: the unit of bare numbers, the hatch, the joists. */

import { surveyOfAddress } from "../survey/shell.js";
import { answersHere, carriedSurvey } from "../tablet/carried.js";
import { canKeep } from "../tablet/store.js";
import { millimetres } from "./lengths.js";

const HATCH_MM = [726, 562]; // a common hatch, until it is measured; common practice, no source
const JOIST_MM = 47;

/** @typedef {import("./read.js").About} About */

/** @param {HTMLElement} root @returns {About} as the page says */
export function aboutOf(root) {
  const { lengthUnit, hatchLong, hatchShort, joistWidth } = root.dataset;
  return aboutBy(lengthUnit || "mm", hatchLong, hatchShort, joistWidth);
}

/** @param {HTMLFormElement} form @returns {Promise<About | null>} as this tablet says, if it keeps the survey */
export async function aboutFromTablet(form) {
  if (!canKeep()) {
    return null;
  }
  const number = document.body.hasAttribute("data-shell") ? surveyOfAddress() : form.dataset.survey;
  const survey = await carriedSurvey(number);
  if (!survey) {
    return null;
  }
  const arrive = await answersHere(number, "arrive");
  const roof = await answersHere(number, "roof");
  return aboutBy(survey.unit || "mm", arrive.hatch_long, arrive.hatch_short, roof.joist_width);
}

/** @param {string} unit @param {string | undefined} long @param {string | undefined} short
 * @param {string | undefined} width @returns {About} */
function aboutBy(unit, long, short, width) {
  /** @param {string | undefined} typed @param {number} otherwise */
  const length = (typed, otherwise) => millimetres(typed || "", unit) || otherwise;
  return {
    unit, hatchLongMm: length(long, HATCH_MM[0]), hatchShortMm: length(short, HATCH_MM[1]),
    joistWidthMm: length(width, JOIST_MM),
  };
}

/** @returns {{x: number, y: number, words: string}[]} where photographs were taken, as the page says [mm] */
export function photographPlaces() {
  const places = [...document.querySelectorAll("[data-photograph-place]")];
  return places.flatMap((element, place) => {
    const [x, y] = String(element.getAttribute("data-photograph-place")).split(",").map(Number);
    return Number.isFinite(x) && Number.isFinite(y) ? [{ x, y, words: String(place + 1) }] : [];
  });
}

/** @param {HTMLFormElement | null} form @returns {[string, string][]} the kinds of keep-outs, as the form asks them */
export function keepOutKinds(form) {
  /** @type {HTMLTemplateElement | null | undefined} */
  const template = form?.querySelector('template[data-row="keep_outs"]');
  const options = template ? [...template.content.querySelectorAll('input[type="radio"][name$="-kind"]')] : [];
  return options.map(option => [
    /** @type {HTMLInputElement} */ (option).value, (option.parentElement?.textContent || "").trim(),
  ]);
}
