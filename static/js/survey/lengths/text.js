// @ts-check
/** The twin of estimating/lengths/text.py: numbers and units in a text, before anybody asks what it means. */

import { UNIT_OF_NAME } from "./units.js";

/** The space that drawings put between thousands. It never stands between two lengths. */
export const HARD_SPACE = "\u00a0";

const HARD_SPACES = "\u00a0\u202f\u2009\u2007";
const MEANT = {
  ...Object.fromEntries([...HARD_SPACES].map((space) => [space, HARD_SPACE])),
  "\t": " ", "\r": " ",
  "’": "'", "‘": "'", "′": "'", "“": '"', "”": '"', "″": '"', "\u2044": "/",
  "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
};
const ENDS = new RegExp(`^[ \\n\\t\\r${HARD_SPACES}]+|[ \\n\\t\\r${HARD_SPACES}]+$`, "g");

const SPACE = `[ ${HARD_SPACE}]`;
const MIXED = `(?<whole>[0-9]+)${SPACE}+(?<over>[0-9]+)/(?<under>[0-9]+)`;
const FRACTION = "(?<overAlone>[0-9]+)/(?<underAlone>[0-9]+)";
export const HARD_GROUPS = `[1-9][0-9]{0,2}(?:${HARD_SPACE}[0-9]{3})+(?![0-9])(?:\\.[0-9]+)?`;
const SOFT_GROUPS = "[1-9][0-9]{0,2}(?:(?:,[0-9]{3})+|(?: [0-9]{3})+)(?![0-9])(?:\\.[0-9]+)?";
const PLAIN = "[0-9]*\\.[0-9]+|[0-9]+";
const NUMBER = `${MIXED}|${FRACTION}|(?<hard>${HARD_GROUPS})|(?<soft>${SOFT_GROUPS})|(?<plain>${PLAIN})`;
const PART = new RegExp(`${SPACE}*(?<number>${NUMBER})${SPACE}*(?<unit>[a-z]+|''|'|")?${SPACE}*`, "y");

/**
 * One number with its unit, or without. Its value is over / under, exactly.
 *
 * @typedef {{over: bigint, under: bigint, unit: string | null, number: string, written: string,
 *   isFraction: boolean, hasPoint: boolean, groupsBy: string}} Part
 */

/**
 * @param {string} typed
 * @returns {string} the text in small letters, with one kind of quote, of hard space and of fraction
 */
export function plain(typed) {
  return trimmed([...typed].map((each) => MEANT[each] ?? each).join("")).toLowerCase();
}

/**
 * @param {string} typed
 * @returns {string} the text as it was typed, without the spaces at its ends
 */
export function trimmed(typed) {
  return typed.replace(ENDS, "");
}

/**
 * @param {string} text made plain
 * @returns {Part[] | null} each number with its unit, or null where something else stands in the text
 */
export function partsOf(text) {
  const parts = [];
  PART.lastIndex = 0;
  while (PART.lastIndex < text.length) {
    const match = PART.exec(text);
    const part = match && partOf(match);
    if (!part) return null;
    parts.push(part);
  }
  return parts;
}

/** @param {RegExpExecArray} match */
function partOf(match) {
  const { number, unit, hard, soft } = /** @type {Record<string, string>} */ (match.groups);
  if (unit && !Object.hasOwn(UNIT_OF_NAME, unit)) return null;
  const value = valueOf(match);
  if (!value) return null;
  const softly = number.includes(",") ? "," : " ";
  return {
    ...value,
    unit: unit ? UNIT_OF_NAME[unit] : null,
    number,
    written: trimmed(match[0]),
    isFraction: number.includes("/"),
    hasPoint: number.includes("."),
    groupsBy: soft ? softly : hard ? HARD_SPACE : "",
  };
}

/** @param {RegExpExecArray} match */
function valueOf({ groups = {} }) {
  const over = groups.over ?? groups.overAlone;
  if (over !== undefined) {
    const [top, under] = [BigInt(over), BigInt(groups.under ?? groups.underAlone)];
    return top >= under ? null : { over: BigInt(groups.whole ?? 0) * under + top, under };
  }
  const [whole, decimals = ""] = groups.number.replace(/[, \u00a0]/g, "").split(".");
  return { over: BigInt(whole + decimals), under: 10n ** BigInt(decimals.length) };
}
