// @ts-check

/** An answer that cannot be read; `readings` are the ways to write it that have one meaning, if any. */
export class Refused extends Error {
  /**
   * @param {string} words
   * @param {{asks?: boolean, readings?: string[]}} [question] asks: it can be read, but in several ways
   */
  constructor(words, { asks = false, readings = [] } = {}) {
    super(words);
    this.asks = asks;
    this.readings = readings;
  }
}
