// @ts-check
/**
 * Lengths as people write them, read on the page while they are typed, by the rules of `estimating/lengths`.
 *
 * The server reads every answer again and its word holds; here it is only sooner. A test gives thousands of
 * texts to both and demands the same answers, so change both together.
 */

import { readLengthMm, writeLength } from "./lengths/one.js";
import { readOpening, sayOpening } from "./lengths/opening.js";
import { Refused } from "./lengths/refused.js";
import { readCornersMm, readLengthsMm, readOffsetsMm, readSpansMm } from "./lengths/several.js";
import { trimmed } from "./lengths/text.js";
import { sayCorners, sayLengths, sayOffsets, inWords } from "./lengths/words.js";

export { inWords, writeLength };

/** How each kind of box is read and read back; a kind that is not here is left to the server. */
const KINDS = {
  length: { read: readLengthMm, say: inWords },
  lengths: { read: readLengthsMm, say: sayLengths },
  offsets: { read: readOffsetsMm, say: sayOffsets },
  corners: { read: readCornersMm, say: sayCorners },
  spans: { read: readSpansMm, say: (spans) => (spans.length === 1 ? inWords(spans[0]) : sayLengths(spans)) },
  opening: { read: readOpening, say: sayOpening },
};

/**
 * Read one length.
 *
 * @param {string} typed
 * @param {string | null} [defaultUnit] mm, cm, m, ft or in; null, "" or "ask" asks about every bare number
 * @returns {{mm: number | null, asks: string[], error: string}} whole millimetres, or why not and how else
 */
export function readLength(typed, defaultUnit = "mm") {
  const { value, asks, error } = readAs("length", typed, defaultUnit);
  return { mm: value, asks, error };
}

/**
 * Read an answer of any kind; an empty one is nothing and no error.
 *
 * @param {string} kind as in data-reads
 * @param {string} typed
 * @param {string | null} [defaultUnit] as for `readLength`
 * @returns {{value: any, asks: string[], error: string}} what the server's field would hold, in mm
 */
export function readAs(kind, typed, defaultUnit = "mm") {
  const text = trimmed(typed);
  if (text === "") return { value: null, asks: [], error: "" };
  try {
    const unit = defaultUnit && defaultUnit !== "ask" ? defaultUnit : null;
    return { value: KINDS[kind].read(text, unit), asks: [], error: "" };
  } catch (refused) {
    if (!(refused instanceof Refused)) throw refused;
    const words = refused.message;
    return { value: null, asks: refused.readings, error: words.slice(0, 1).toUpperCase() + words.slice(1) };
  }
}

/**
 * Say what was understood, in the words that the server uses.
 *
 * @param {string} kind as in data-reads
 * @param {string} typed
 * @param {string | null} [defaultUnit] as for `readLength`
 * @returns {string} "read as 5 200 mm", or why it cannot be read, or nothing for an empty box
 */
export function understood(kind, typed, defaultUnit = "mm") {
  const { value, error } = readAs(kind, typed, defaultUnit);
  return error || (value === null ? "" : `read as ${KINDS[kind].say(value)}`);
}

/** @param {string | undefined} kind */
export function canRead(kind) {
  return kind !== undefined && Object.hasOwn(KINDS, kind);
}
