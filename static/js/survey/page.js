// @ts-check
/** The one entry of the surveyor's pages: it wakes what works over the answers of the page. */

import { watchLengths } from "./asking.js";

const answers = /** @type {HTMLFormElement | null} */ (document.querySelector("form#answers"));
if (answers) {
  watchLengths(answers);
}
