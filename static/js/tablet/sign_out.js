/** Signing out removes what lies on the tablet; where the office does not have it yet, that is said first. */

import { copyOut } from "./copies.js";
import { items } from "./outbox.js";
import { forgetPages } from "./offline.js";
import { sendNow } from "./sending.js";
import { stateOf } from "./state_line.js";
import { wipe } from "./store.js";

/** Ask before a form signs out while something is unsent, and wipe the tablet when it does. */
export function guardSignOut(forms) {
  for (const form of forms) {
    form.addEventListener("submit", async (event) => {
      if (form.dataset.wiped === "true") return;
      event.preventDefault();
      await sendNow();
      if ((await items()).length && !(await mayLose())) return;
      await wipe();
      await forgetPages();
      form.dataset.wiped = "true";
      form.requestSubmit();
    });
  }
}

async function mayLose() {
  const dialog = document.querySelector("#unsent-at-sign-out");
  dialog.querySelector("[data-unsent]").textContent = (await stateOf(null)).words;
  dialog.querySelector("[data-copy]").onclick = async () => copyOut(await items());
  dialog.returnValue = "";
  dialog.showModal();
  await new Promise((resolve) => {
    dialog.addEventListener("close", resolve, { once: true });
  });
  return dialog.returnValue === "sign out";
}
