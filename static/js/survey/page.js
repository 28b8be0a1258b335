// @ts-check
/** The one entry of the surveyor's pages: it wakes what works over the answers of the page. */

import { canKeep } from "../tablet/store.js";
import { watchLengths } from "./asking.js";
import { stayAwake } from "./awake.js";
import { watchKeys } from "./keys.js";
import { watchRows } from "./rows.js";
import { openOnTablet } from "./on_tablet.js";
import { setUpSheetSwitch } from "./sheet_switch.js";

const answers = /** @type {HTMLFormElement | null} */ (document.querySelector("form#answers"));
if (answers) {
  watchRows(answers);
  watchLengths(answers);
  watchKeys(answers);
  if (canKeep()) openOnTablet(answers);
}
stayAwake();
setUpSheetSwitch();
