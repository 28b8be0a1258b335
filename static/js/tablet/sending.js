/**
 * Send the outbox: one item at a time, in order, each until the office has answered for it.
 *
 * A request may be lost, and so may its answer; so an item is sent again, word for word, until a receipt
 * comes. Only one tab sends. Nothing is sent under another person's name.
 */

import { sha256 } from "./digests.js";
import { dropItem, items, keepItem, onNews, tabletName, takeUp, tellNews } from "./outbox.js";
import { personHere } from "./person.js";
import { sendPicture } from "./pictures_up.js";
import { takeReceipt } from "./receipts.js";
import { post } from "./requests.js";

const SHORTEST_WAIT_MS = 2_000;
const LONGEST_WAIT_MS = 60_000;

let waitMs = SHORTEST_WAIT_MS;
let timer = null;
let running = null;
let again = false;

/** Send whatever waits, now; answers once the outbox is empty or cannot go on. */
export function sendNow() {
  again = true;
  running ??= oneTabAtATime().finally(() => {
    running = null;
  });
  return running;
}

async function oneTabAtATime() {
  if (!navigator.locks) return sendUntilStopped();
  return navigator.locks.request("eavesbook-sending", { ifAvailable: true }, (lock) =>
    lock ? sendUntilStopped() : tryAgainLater(SHORTEST_WAIT_MS),
  );
}

async function sendUntilStopped() {
  clearTimeout(timer);
  while (again) {
    again = false;
    for (let item = await nextItem(); item; item = await nextItem()) {
      if (!(await goesUp(item))) {
        tryAgainLater(waitMs);
        waitMs = Math.min(waitMs * 2, LONGEST_WAIT_MS);
        return;
      }
      waitMs = SHORTEST_WAIT_MS;
    }
  }
}

function tryAgainLater(afterMs) {
  clearTimeout(timer);
  timer = setTimeout(sendNow, afterMs);
}

/** The oldest item of the person signed in that waits for no person's decision. */
async function nextItem() {
  const person = await personHere();
  return (await items()).find((item) => item.person === person && item.state !== "refused");
}

/** Send one item; true when the next may follow, false when sending has to wait. */
async function goesUp({ place }) {
  const item = await takeUp(place);
  if (!item) return true; // deleted on the list meanwhile
  item.body ??= await bodyOf(item);
  item.digest ??= await sha256(item.body);
  await keepItem(item);
  const answer = item.kind === "bytes" ? await sendPicture(item) : await sendChange(item);
  return settle(item, answer);
}

function sendChange(item) {
  const sent = JSON.stringify({ id: item.id, digest: item.digest, body: item.body });
  return post(`/surveys/${item.survey}/changes/`, sent);
}

async function bodyOf(item) {
  const { form, number, made_at, kind } = item;
  const said = { form, tablet: await tabletName(), number, made_at, kind };
  if (item.section) said.section = item.section;
  if (item.fields) said.fields = item.fields;
  return JSON.stringify({ ...said, ...item.says });
}

async function settle(item, answer) {
  if (answer.status === 200) {
    await takeReceipt(item, answer.told);
    await dropItem(item);
    return true;
  }
  if (answer.status === 409 && answer.told?.wants) {
    const up = await sendPicture({ ...item, says: { digest: answer.told.wants } });
    if (up.status === 200) return true;
    return settle(item, up);
  }
  const passes = mayPass(answer);
  item.state = answer.status === 401 ? "sign in" : passes ? "waiting" : "refused";
  item.words = answer.words;
  await keepItem(item);
  tellNews();
  return !passes;
}

/** Tell whether the same item may be taken another time: nothing is wrong with the item itself. */
function mayPass({ status, told }) {
  return [0, 401, 403, 429].includes(status) || status >= 500 || ["damaged", "cut"].includes(told?.error);
}

/** Send at once when something new lies in the outbox, when a signal comes, and when the page is seen. */
export function keepSending() {
  onNews(() => {
    if (waitMs === SHORTEST_WAIT_MS) sendNow();
  });
  addEventListener("online", () => {
    waitMs = SHORTEST_WAIT_MS;
    sendNow();
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") sendNow();
  });
  sendNow();
}
