// @ts-check
/** The parts of a drawing as SVG text, and what is always escaped in it. */

/** @param {string} words @returns {string} */
export function escaped(words) {
  return words.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");
}

/** @param {number} px @returns {string} */
export function px(px) {
  return String(Math.round(px * 10) / 10);
}

/** @param {[number, number][]} spots [px] @param {boolean} [isOpen] @returns {string} the d of a path */
export function pathOf(spots, isOpen = false) {
  return spots.map(([x, y], place) => `${place ? "L" : "M"}${px(x)} ${px(y)}`).join("") + (isOpen ? "" : "z");
}

/** @param {string} ink its class @param {string} d @returns {string} */
export function path(ink, d) {
  return d ? `<path class="${ink}" d="${d}"/>` : "";
}

/**
 * @param {string} ink its class @param {number} x [px] @param {number} y [px] @param {string} words
 * @param {boolean} [isUpright] turned to be read from the right @returns {string}
 */
export function text(ink, x, y, words, isUpright = false) {
  const turn = isUpright ? ` transform="rotate(-90 ${px(x)} ${px(y)})"` : "";
  return `<text class="${ink}" x="${px(x)}" y="${px(y)}"${turn}>${escaped(words)}</text>`;
}

/** @param {string} words @param {number} size [px] @returns {number} about how wide they are [px] */
export function widthOf(words, size) {
  return words.length * size * 0.52;
}
