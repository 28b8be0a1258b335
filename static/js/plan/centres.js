// @ts-check
/**
 * Centres of uneven joists one after another, as people write them: 395 407 400 x 6.
 * The twin of jobs/surveys/centres.py; one table of cases in the tests holds the two together.
 */

import { readLength } from "./lengths.js";

/** A centre of ceiling joists lies between these; common practice, no source. [mm] */
export const LEAST_CENTRE_MM = 100;
export const MOST_CENTRE_MM = 1500;
export const MOST_TIMES = 60;

const TIMES = /\s*[x×*]\s*/gi;
/** Without a look behind, which Safari cannot do before 16.4. */
const UNIT_APART = /([0-9]) +(?=(?:mm|cm|m|in|ins|inch|inches|ft|foot|feet)(?:[\sx]|$))/gi;
const FEET = /ft|foot|feet|'(?!')/;

/**
 * @typedef {{ok: true, spacings: number[]} | {ok: false, asks: string}} Centres spacings in mm
 * @param {string} typed @param {string} unit the unit of a bare number
 * @returns {Centres}
 */
export function readCentres(typed, unit) {
  const pieces = piecesOf(typed);
  if (!pieces || !pieces.length) {
    const twoWays = `"${typed}" can be read in two ways: put commas between the centres`;
    return { ok: false, asks: pieces ? "is missing" : twoWays };
  }
  /** @type {number[]} */
  const spacings = [];
  for (const piece of pieces) {
    const read = readPiece(piece, unit);
    if (typeof read === "string") {
      return { ok: false, asks: read };
    }
    spacings.push(...read);
  }
  return { ok: true, spacings };
}

/** @param {string} typed @returns {string[] | null} null where it is not plain where one ends */
function piecesOf(typed) {
  const joined = typed.trim().replace(TIMES, "x");
  if (/[,;\n]/.test(joined)) {
    return joined.split(/[,;\n]/).map(piece => piece.trim()).filter(Boolean);
  }
  const pieces = joined.replace(UNIT_APART, "$1").split(/\s+/).filter(Boolean);
  const units = new Set(pieces.map(piece => piece.toLowerCase().replace(/x\d+$|^\d+x(?=[\d.])|[\d./]/g, "")));
  return pieces.length > 1 && (units.size > 1 || [...units].some(each => FEET.test(each))) ? null : pieces;
}

/** @param {string} piece @param {string} unit @returns {number[] | string} */
function readPiece(piece, unit) {
  const sides = piece.split("x");
  if (sides.length === 1) {
    const read = readLength(piece, unit);
    if (!read.ok) {
      return read.asks;
    }
    return centreOf(piece, unit) === null
      ? `"${piece}" is no centre of joists: write one from ${LEAST_CENTRE_MM} to ${MOST_CENTRE_MM} mm` : [read.mm];
  }
  const [one, other] = sides;
  const readings = new Map([[one, other], [other, one]]
    .map(([length, times]) => ({ mm: centreOf(length, unit), times: timesOf(times) }))
    .filter(({ mm, times }) => mm !== null && times !== null)
    .map(({ mm, times }) => [`${mm} ${times}`, /** @type {number[]} */ (Array(times).fill(mm))]));
  if (readings.size > 1) {
    return `"${piece}" can be read in two ways: write the unit beside the length`;
  }
  const [found] = readings.values();
  return found && sides.length === 2 ? found : `"${piece}" is not a centre and how often: write 400 mm x 6`;
}

/** @param {string} text @param {string} unit @returns {number | null} [mm] */
function centreOf(text, unit) {
  const read = readLength(text, unit);
  return read.ok && read.mm >= LEAST_CENTRE_MM && read.mm <= MOST_CENTRE_MM ? read.mm : null;
}

/** @param {string} text @returns {number | null} */
function timesOf(text) {
  const times = /^\s*[0-9]{1,2}\s*$/.test(text) ? Number(text) : 0;
  return times >= 1 && times <= MOST_TIMES ? times : null;
}

/** @param {number[]} spacings [mm] @returns {string} as short as it can be typed: 395 mm, 400 mm x 6 */
export function writeCentres(spacings) {
  /** @type {string[]} */
  const written = [];
  let from = 0;
  spacings.forEach((mm, place) => {
    if (mm !== spacings[place + 1]) {
      const times = place + 1 - from;
      written.push(times > 1 ? `${mm} mm x ${times}` : `${mm} mm`);
      from = place + 1;
    }
  });
  return written.join(", ");
}
