// @ts-check
/** Which boxes of a page hold lengths, and how each is to be read. */

import { canRead } from "./lengths.js";

/** @typedef {HTMLInputElement | HTMLTextAreaElement} Box */

/**
 * @param {EventTarget | null} target
 * @returns {Box | null} the box, if it holds what is read on the page
 */
export function lengthBox(target) {
  const isBox = target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
  return isBox && canRead(target.dataset.reads) ? target : null;
}

/** @param {HTMLFormElement} form */
export function boxesOf(form) {
  return [...form.querySelectorAll("[data-reads]")].map(lengthBox).filter((box) => box !== null);
}

/**
 * @param {Box} box
 * @returns {string} what kind of answer it holds
 */
export function kindOf(box) {
  return box.dataset.reads ?? "";
}

/**
 * @param {Box} box
 * @returns {string | null} the unit of its bare numbers, or null to ask about every one
 */
export function unitOf(box) {
  const unit = box.form?.dataset.lengthUnit || box.dataset.unit;
  return unit && unit !== "ask" ? unit : null;
}
