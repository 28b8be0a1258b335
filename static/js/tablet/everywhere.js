/** On every page of a person who is signed in: what the tablet holds goes up, and is not lost on signing out. */

import { items, onNews, takeInDrafts } from "./outbox.js";
import { keepSending, sendNow } from "./sending.js";
import { guardSignOut } from "./sign_out.js";
import { canKeep } from "./store.js";

if (canKeep()) {
  takeInDrafts().then(keepSending);
  guardSignOut(document.querySelectorAll("form[data-signs-out]"));
  document.addEventListener("submit", sendFirst);
  showAnewOnceSent(document.querySelector("[data-sheet-of]")?.dataset.sheetOf);
}

/** What the office is asked to settle must find there all that was measured. */
async function sendFirst(event) {
  const form = event.target;
  if (!form.matches("[data-send-first]") || form.dataset.sent === "true") return;
  event.preventDefault();
  await sendNow();
  if ((await items()).some((item) => item.state !== "refused" && item.survey === form.dataset.sendFirst)) {
    location.assign("/surveys/on-this-tablet/");
    return;
  }
  form.dataset.sent = "true";
  form.requestSubmit(event.submitter);
}

/** A sheet that was made before the office had everything is asked for once more when it has. */
async function showAnewOnceSent(survey) {
  const waits = async () => (await items()).some((item) => item.state !== "refused" && item.survey === survey);
  if (!survey || !(await waits())) return;
  onNews(async () => {
    if (!(await waits())) location.reload();
  });
}
