// @ts-check
/** The twin of estimating/lengths/lists.py: where one length ends and the next begins. */

import { HARD_GROUPS, HARD_SPACE, partsOf, plain, trimmed } from "./text.js";
import { LONGEST_IN_A_LOFT_MM } from "./units.js";
import { either } from "./words.js";

const BARE_NUMBER = `[+-]?(?:${HARD_GROUPS}|[0-9]*\\.[0-9]+|[0-9]+)`;
const IS_BARE = new RegExp(`^(?:${BARE_NUMBER})$`);
const ALIKE = new RegExp(
  `^${BARE_NUMBER}[ ${HARD_SPACE}]*(?<unit>mm|cm|m|in|ins|inch|inches|")(?: +${BARE_NUMBER}[ ${HARD_SPACE}]*\\k<unit>)*$`,
);
/** Without a look behind, which Safari cannot do before 16.4. */
const THOUSANDS_BY_COMMA = /(^|[^0-9./])([1-9][0-9]?),([0-9]{3})(?![0-9])/g;

/**
 * Split a list; or return the ways to write it that may be meant, where it can be split in several.
 *
 * @param {string} typed
 * @returns {{pieces: string[], ways: string[] | null}}
 */
export function piecesOf(typed) {
  if (/[,;\n]/.test(trimmed(typed))) {
    if (typed.search(THOUSANDS_BY_COMMA) >= 0) return { pieces: [], ways: byComma(typed) };
    return { pieces: typed.split(/[,;\n]/).map(trimmed).filter(Boolean), ways: null };
  }
  const text = plain(typed);
  const tokens = text.split(" ").filter(Boolean);
  return tokens.length <= 1 ? { pieces: tokens, ways: null } : bySpaces(text, tokens);
}

/** @param {string} typed @param {string[]} readings */
export function canBeReadInTwoWays(typed, readings) {
  const hint = readings.length ? `write ${either(readings)}` : "put commas between the lengths";
  return `"${trimmed(typed)}" can be read in two ways: ${hint}`;
}

/** @param {string} text @param {string[]} tokens */
function bySpaces(text, tokens) {
  if (tokens.every((token) => IS_BARE.test(token))) {
    const grouped = withThousands(tokens);
    if (grouped.length === tokens.length) return { pieces: tokens, ways: null };
    return { pieces: [], ways: [grouped.join(", "), tokens.join(", ")] };
  }
  if (ALIKE.test(text)) return { pieces: text.replace(/([a-z"]) +/g, "$1\n").split("\n"), ways: null };
  const parts = partsOf(withoutSigns(text));
  if (!parts) return { pieces: tokens, ways: null }; // and whoever reads them names the one that is no length
  const ways = /[+-]/.test(text) ? [tokens] : [feetWithInches(parts), parts.map((part) => part.written), tokens];
  return { pieces: [], ways: [...new Set(ways.map(withCommas))] };
}

/** @param {string} text */
function withoutSigns(text) {
  return text.replace(/(^|[^0-9+-])[+-](?=[0-9.])/g, "$1");
}

/** @param {string} typed */
function byComma(typed) {
  const one = typed.replace(THOUSANDS_BY_COMMA, "$1$2$3");
  return [one, typed].map((each) => each.split(/[,;\n]/).map(trimmed).join(", "));
}

/** @param {string[]} tokens */
function withThousands(tokens) {
  const grouped = [];
  for (const token of tokens) {
    const before = grouped.at(-1) ?? "";
    const size = before.replace(/^[+-]+/, "");
    const isOne = /^[1-9][0-9]?$/.test(size) && /^[0-9]{3}$/.test(token) &&
      Number(size + token) <= LONGEST_IN_A_LOFT_MM;
    if (isOne) grouped[grouped.length - 1] = before + token;
    else grouped.push(token);
  }
  return grouped;
}

/** @param {import("./text.js").Part[]} parts */
function feetWithInches(parts) {
  const lengths = [];
  let feet = "";
  for (const part of parts) {
    if (feet && (part.unit === "in" || part.unit === null)) {
      lengths.push(`${feet} ${part.written}`);
      feet = "";
      continue;
    }
    if (feet) lengths.push(feet);
    feet = part.unit === "ft" ? part.written : "";
    if (!feet) lengths.push(part.written);
  }
  if (feet) lengths.push(feet);
  return lengths;
}

/** @param {string[]} lengths */
function withCommas(lengths) {
  return lengths.length > 1 ? lengths.join(", ") : `${lengths[0]},`;
}
