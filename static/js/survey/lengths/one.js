// @ts-check
/** The twin of estimating/lengths/one.py: one length as people write it. */

import { Refused } from "./refused.js";
import { partsOf, plain, trimmed } from "./text.js";
import {
  ASKED, ASKED_OF_A_FRACTION, BARE, LONGEST_IN_A_LOFT_MM, LONGEST_MM, TENTHS_OF_MM,
} from "./units.js";
import { either } from "./words.js";

/** @typedef {import("./text.js").Part} Part */

const LONGEST_TEXT = 40;
const LIKE = "write it like 5200, 5.2 m or 17' 3\"";
const TWO_PARTS = new Set(["ft in", "m cm", "m mm"]);

/**
 * @param {string} typed
 * @param {string | null} defaultUnit the unit of a bare number, or null to ask about every one
 * @returns {number} whole millimetres, half up; throws Refused
 */
export function readLengthMm(typed, defaultUnit = "mm") {
  const [text, shown] = [plain(typed), trimmed(typed)];
  if (text === "") throw new Refused("is missing");
  if ([...text].length > LONGEST_TEXT) {
    throw new Refused(`"${[...shown].slice(0, LONGEST_TEXT).join("")}…" is too much for one length: ${LIKE}`);
  }
  const parts = partsOf(text);
  if (!parts) throw new Refused(`cannot read "${shown}" as a length: ${LIKE}`);
  const exact = parts.length === 1 ? one(parts[0], shown, defaultUnit) : several(parts, shown);
  if (exact.over > BigInt(LONGEST_MM) * exact.under) throw new Refused(`"${shown}" is longer than any building`);
  return Number((2n * exact.over + exact.under) / (2n * exact.under));
}

/**
 * Write a length so that it means the same under any unit of bare numbers.
 *
 * @param {number} lengthMm
 * @param {string | null} unit the unit of bare numbers
 */
export function writeLength(lengthMm, unit) {
  return unit === "mm" ? String(lengthMm) : `${lengthMm} mm`;
}

/** @param {string} way a length with its unit */
export function isPlausible(way) {
  try {
    const mm = readLengthMm(way, null);
    return mm > 0 && mm <= LONGEST_IN_A_LOFT_MM;
  } catch (refused) {
    if (refused instanceof Refused) return false;
    throw refused;
  }
}

/** @param {Part} part @param {string} shown @param {string | null} defaultUnit */
function one(part, shown, defaultUnit) {
  const isSoft = part.groupsBy === "," || part.groupsBy === " ";
  if (isSoft && part.over > BigInt(LONGEST_IN_A_LOFT_MM) * part.under) {
    throw ask([], shown, "can be one length or two");
  }
  if (part.unit === null && !mayStandBare(part, defaultUnit)) {
    throw ask(withUnits(part, defaultUnit), shown, "needs its unit");
  }
  const unit = part.unit ?? defaultUnit ?? "mm";
  if (part.groupsBy && unit !== "mm") throw ask(withoutGroups(part), shown, "can be read in two ways");
  return inMm(part, unit);
}

/** @param {Part[]} parts @param {string} shown */
function several(parts, shown) {
  const [first, second, ...more] = parts;
  let units = `${first.unit} ${second.unit}`;
  if (units === "m null" && isWhole(first) && /^[0-9]+$/.test(second.number) && more.length === 0) {
    const written = `${first.number} m ${second.number}`;
    throw ask([`${written} cm`, `${written} mm`], shown, "needs both its units");
  }
  if (units === "ft null") units = "ft in";
  if (more.length || !TWO_PARTS.has(units) || !isWhole(first) || second.groupsBy) {
    throw new Refused(`"${shown}" is not one length: ${LIKE}`);
  }
  const [large, small] = units.split(" ");
  const rest = inMm(second, small);
  if (rest.over * 10n >= TENTHS_OF_MM[large] * rest.under) {
    const told = large === "ft" ? "12 inches or more beside its feet" : "a metre or more beside its metres";
    throw new Refused(`"${shown}" has ${told}`);
  }
  const whole = inMm(first, large);
  return { over: whole.over * rest.under + rest.over * whole.under, under: whole.under * rest.under };
}

/** @param {Part} part @param {string} unit */
function inMm(part, unit) {
  return { over: part.over * TENTHS_OF_MM[unit], under: part.under * 10n };
}

/** @param {Part} part */
function isWhole(part) {
  return part.over % part.under === 0n && !part.groupsBy && !part.hasPoint;
}

/** @param {Part} part @param {string | null} defaultUnit */
function mayStandBare(part, defaultUnit) {
  if (part.over === 0n) return true; // nothing is nothing in every unit
  if (defaultUnit === null) return false;
  const rule = BARE[defaultUnit];
  return part.over <= rule.atMost * part.under && (rule.takesPoint || !part.hasPoint) &&
    (rule.takesFraction || !part.isFraction) && (defaultUnit === "mm" || !part.groupsBy);
}

/** @param {Part} part @param {string | null} defaultUnit */
function withUnits(part, defaultUnit) {
  const units = part.isFraction ? ASKED_OF_A_FRACTION : ASKED[defaultUnit ?? "none"];
  const number = part.isFraction ? part.number : withoutSeparators(part.number);
  const ways = units.map((unit) => `${number} ${unit}`);
  const [feet, inches] = number.split(".");
  if (defaultUnit === "ft" && inches && BigInt(inches) < 12n) ways.splice(1, 0, `${feet || 0}' ${BigInt(inches)}"`);
  if (part.groupsBy === ",") ways.unshift(`${part.number.replace(",", ".")} m`);
  return ways;
}

/** @param {Part} part */
function withoutGroups(part) {
  const hasOneComma = part.number.split(",").length === 2 && !part.hasPoint;
  const numbers = [...(hasOneComma ? [part.number.replace(",", ".")] : []), withoutSeparators(part.number)];
  return numbers.map((number) => `${number} ${part.unit}`);
}

/** @param {string} number */
function withoutSeparators(number) {
  return number.replace(/[, \u00a0]/g, "");
}

/** @param {string[]} ways @param {string} shown @param {string} why */
function ask(ways, shown, why) {
  const readings = [...new Set(ways.filter(isPlausible))];
  const hint = readings.length ? `: write ${either(readings)}` : "";
  return new Refused(`"${shown}" ${why}${hint}`, { asks: true, readings });
}
