// @ts-check
/** The twin of OpeningField in jobs/surveys/measures.py: free opening for air, in mm² for each metre. */

import { readLengthMm } from "./one.js";
import { Refused } from "./refused.js";
import { HARD_SPACE, plain } from "./text.js";
import { grouped } from "./words.js";

const WIDEST_GAP_MM = 100;
const SPACES = `[ ${HARD_SPACE}]*`;
const PER_METRE = new RegExp(
  `^([0-9,. ${HARD_SPACE}]*[0-9])${SPACES}mm(?:2|²)${SPACES}(?:/|per|a)?${SPACES}m(?:etre)?$`,
);
const NUMBER = /^(?:[0-9]{1,9}(?:\.[0-9]{1,6})?|\.[0-9]{1,6})$/;

/** @param {string} typed @param {string | null} defaultUnit @returns {number} mm² a metre */
export function readOpening(typed, defaultUnit) {
  const byArea = PER_METRE.exec(plain(typed));
  if (byArea) {
    const number = byArea[1].replace(/[, \u00a0]/g, "");
    if (!NUMBER.test(number)) throw new Refused(`"${typed}" is not a number`);
    return Math.trunc(Number(number));
  }
  const gapMm = readGapMm(typed, defaultUnit);
  if (gapMm > WIDEST_GAP_MM) {
    throw new Refused(`must be a gap of at most ${WIDEST_GAP_MM} mm, or written as mm²/m, such as 10000 mm²/m`);
  }
  return gapMm * 1000;
}

/** @param {number} mm2PerMetre */
export function sayOpening(mm2PerMetre) {
  return `${grouped(mm2PerMetre)} mm² a metre`;
}

/** @param {string} typed @param {string | null} defaultUnit */
function readGapMm(typed, defaultUnit) {
  try {
    return readLengthMm(typed, defaultUnit);
  } catch (refused) {
    if (!(refused instanceof Refused && refused.asks)) throw refused;
    const readings = refused.readings.filter((way) => readLengthMm(way, "mm") <= WIDEST_GAP_MM);
    throw new Refused(refused.message, { asks: true, readings });
  }
}
