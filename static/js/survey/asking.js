// @ts-check
/** Beneath each length box: what is understood while it is typed, or the question that its answer raises. */

/**
 * Watch the boxes of a form, also those that are added to it later.
 *
 * @param {HTMLFormElement} form
 */
export function watchLengths(form) {
  form.dataset.watched = "lengths";
}
