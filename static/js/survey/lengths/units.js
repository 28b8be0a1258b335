// @ts-check
/** The twin of estimating/lengths/units.py, where each number is explained. */

/** Tenths of a millimetre in a unit; whole, so that nothing is lost. */
export const TENTHS_OF_MM = { mm: 10n, cm: 100n, m: 10_000n, ft: 3048n, in: 254n };

export const UNIT_OF_NAME = {
  mm: "mm", millimetre: "mm", millimetres: "mm", millimeter: "mm", millimeters: "mm",
  cm: "cm", centimetre: "cm", centimetres: "cm", centimeter: "cm", centimeters: "cm",
  m: "m", metre: "m", metres: "m", meter: "m", meters: "m",
  ft: "ft", foot: "ft", feet: "ft", "'": "ft",
  in: "in", ins: "in", inch: "in", inches: "in", '"': "in", "''": "in",
};

export const LONGEST_IN_A_LOFT_MM = 30_000;
export const LONGEST_MM = 1_000_000;

/** Which number means a length in a unit although the unit was left out. */
export const BARE = {
  mm: { atMost: 30_000n, takesPoint: false, takesFraction: false },
  cm: { atMost: 3_000n, takesPoint: true, takesFraction: false },
  m: { atMost: 30n, takesPoint: true, takesFraction: false },
  ft: { atMost: 98n, takesPoint: false, takesFraction: true },
  in: { atMost: 1_181n, takesPoint: true, takesFraction: true },
};

const METRIC = ["m", "cm", "mm"];

/** The units that are offered where a number needs one, by the unit in which the firm writes. */
export const ASKED = {
  mm: METRIC, cm: METRIC, m: METRIC, ft: ["ft", "in", "m", "mm"], in: ["in", "ft", "m", "mm"],
  none: [...METRIC, "ft", "in"],
};
export const ASKED_OF_A_FRACTION = ["in", "ft"];
