// @ts-check
/** The twin of estimating/lengths/several.py and each.py: readings, offsets with their signs, spans, corners. */

import { canBeReadInTwoWays, piecesOf } from "./lists.js";
import { isPlausible, readLengthMm } from "./one.js";
import { Refused } from "./refused.js";
import { partsOf, plain, trimmed } from "./text.js";
import { LONGEST_IN_A_LOFT_MM, TENTHS_OF_MM } from "./units.js";
import { either } from "./words.js";

/** @param {string} typed @param {string | null} defaultUnit @returns {number[]} mm */
export function readLengthsMm(typed, defaultUnit) {
  return readList(typed, (piece) => readLengthMm(piece, defaultUnit));
}

/** @param {string} typed @param {string | null} defaultUnit @returns {number[]} mm, lower ones below 0 */
export function readOffsetsMm(typed, defaultUnit) {
  const text = typed.replace(/[\u2212\u2013]/g, "-").replace(/([+-])[ \t]+/g, "$1");
  return readList(text, (piece) => {
    const [sign, size] = signed(piece);
    try {
      const offsetMm = readLengthMm(size, defaultUnit);
      return sign === "-" && offsetMm ? -offsetMm : offsetMm;
    } catch (refused) {
      if (!(refused instanceof Refused && refused.asks)) throw refused;
      const readings = refused.readings.map((reading) => sign + reading);
      throw new Refused(refused.message, { asks: true, readings });
    }
  });
}

/** @param {string} typed @param {string | null} defaultUnit @returns {number[]} mm, at least one */
export function readSpansMm(typed, defaultUnit) {
  let asOne;
  try {
    return [readLengthMm(typed, defaultUnit)];
  } catch (refused) {
    if (!(refused instanceof Refused)) throw refused;
    if (!/[0-9][^0-9]*[ \t\r\n,;][^0-9]*[0-9]/.test(trimmed(typed))) throw refused;
    asOne = refused;
  }
  try {
    return readLengthsMm(typed, defaultUnit);
  } catch (refused) {
    if (!(refused instanceof Refused && refused.asks)) throw refused;
    const readings = [...asOne.readings, ...refused.readings];
    throw new Refused(canBeReadInTwoWays(typed, readings), { asks: true, readings });
  }
}

/** @param {string} typed @param {string | null} defaultUnit @returns {[number, number][]} mm */
export function readCornersMm(typed, defaultUnit) {
  const corners = typed.split(/[;\n]/).filter((corner) => trimmed(corner)).map((corner) => corner.split(","));
  if (corners.length === 0) throw new Refused("is missing");
  for (const corner of corners) {
    if (corner.length !== 2) {
      throw new Refused(
        `"${trimmed(corner.join(","))}" is not one corner: write from left gable, comma, from front eaves, ` +
          "with a semicolon between corners",
      );
    }
  }
  const sidesMm = readEach(corners.flat(), (side) => readLengthMm(side, defaultUnit), (sides) =>
    inPairs(sides).map((pair) => pair.join(",")).join("; "));
  return inPairs(sidesMm);
}

/**
 * @template Side
 * @param {Side[]} sides
 * @returns {[Side, Side][]}
 */
function inPairs(sides) {
  return Array.from({ length: sides.length / 2 }, (_, corner) => [sides[2 * corner], sides[2 * corner + 1]]);
}

/** @param {string} typed @param {(piece: string) => number} read */
function readList(typed, read) {
  const { pieces, ways } = piecesOf(typed);
  if (ways) {
    const readings = ways.filter((way) => arePlausible(way, read));
    throw new Refused(canBeReadInTwoWays(typed, readings), { asks: true, readings });
  }
  if (pieces.length === 0) throw new Refused("is missing");
  return readEach(pieces, read, asList);
}

/** @param {string[]} pieces @param {(piece: string) => number} read @param {(each: string[]) => string} join */
function readEach(pieces, read, join) {
  const lengthsMm = [];
  /** @type {Map<number, Refused>} */
  const asked = new Map();
  pieces.forEach((piece, place) => {
    try {
      lengthsMm.push(read(piece));
    } catch (refused) {
      if (!(refused instanceof Refused && refused.asks)) throw refused;
      asked.set(place, refused);
    }
  });
  const [first] = asked.values();
  if (!first) return lengthsMm;
  const readings = first.readings
    .map((reading) => pieces.map((piece, place) => written(piece, asked.get(place), endingOf(reading))))
    .filter((ways) => ways.every(Boolean))
    .map(join);
  const hint = readings.length ? `: write ${either(readings)}` : "";
  throw new Refused(first.message.split(": write ")[0] + hint, { asks: true, readings });
}

/** @param {string} piece @param {Refused | undefined} asks @param {string} ending */
function written(piece, asks, ending) {
  if (asks) return asks.readings.find((reading) => endingOf(reading) === ending) ?? "";
  const withUnit = `${trimmed(piece)} ${ending}`;
  const parts = partsOf(plain(piece.replace(/^[+-]+/, ""))) ?? [];
  const isBare = parts.length === 1 && parts[0].unit === null && parts[0].over > 0n &&
    Object.hasOwn(TENTHS_OF_MM, ending);
  return isBare && isPlausible(withUnit.replace(/^[+-]+/, "")) ? withUnit : trimmed(piece);
}

/** @param {string[]} pieces */
function asList(pieces) {
  const isPlain = pieces.length > 1 || piecesOf(pieces[0]).pieces.length === 1;
  return isPlain ? pieces.join(", ") : `${pieces[0]},`;
}

/** @param {string} reading */
function endingOf(reading) {
  return reading.slice(reading.lastIndexOf(" ") + 1);
}

/** @param {string} piece */
function signed(piece) {
  const text = trimmed(piece);
  return /^[+-]/.test(text) ? [text[0], text.slice(1)] : ["", text];
}

/** @param {string} way @param {(piece: string) => number} read */
function arePlausible(way, read) {
  try {
    return readList(way, read).every((mm) => Math.abs(mm) <= LONGEST_IN_A_LOFT_MM);
  } catch (refused) {
    if (refused instanceof Refused) return false;
    throw refused;
  }
}
