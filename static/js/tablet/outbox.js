/**
 * What was measured here and is not in the office yet, in the order in which it was measured.
 *
 * An item is a change of answers, a photograph's bytes, or the words with a photograph. An item that was
 * never tried may still grow; once it was tried its body stands, so that the office can tell a repetition
 * from something new.
 */

import { newName } from "./digests.js";
import { drafts } from "./drafts.js";
import { asked, inTransaction, read, readAll, remove, write } from "./store.js";

const NEWS = "eavesbook-tablet";
const channel = "BroadcastChannel" in window ? new BroadcastChannel(NEWS) : null;
const here = new EventTarget();

/** Call `listener` whenever the outbox or the tablet's surveys change, in this tab or another. */
export function onNews(listener) {
  here.addEventListener(NEWS, listener);
  channel?.addEventListener("message", listener);
}

/** Tell every tab that something changed. */
export function tellNews() {
  here.dispatchEvent(new Event(NEWS));
  channel?.postMessage(NEWS);
}

/** Return the name of this tablet, made once. */
export async function tabletName() {
  const known = await read("facts", "tablet");
  if (known) return known.value;
  const made = { name: "tablet", value: newName() };
  await write("facts", made);
  return made.value;
}

/**
 * Put changed answers into the outbox.
 *
 * @param {{survey: string, person: string, kind: "answers"|"hazards", section: string, form: number}} about
 * @param {Record<string, [string, string]>} fields name -> [before, after]
 */
export async function addFields(about, fields) {
  if (!Object.keys(fields).length) return;
  await inTransaction(["outbox", "facts"], "readwrite", async (stores) => {
    const last = await lastOf(stores.outbox);
    if (last && mayGrow(last, about)) {
      for (const [name, [before, after]] of Object.entries(fields)) {
        last.fields[name] = [last.fields[name]?.[0] ?? before, after];
      }
      await asked(stores.outbox.put(last));
    } else {
      await put(stores, { ...about, fields });
    }
  });
  tellNews();
}

let taken = null;

/** Put into the outbox what an earlier page could only write down before it went: once, before anything is typed. */
export function takeInDrafts() {
  taken ??= takeIn();
  return taken;
}

async function takeIn() {
  for (const { about, fields, letGo } of drafts()) {
    await addFields(about, fields);
    letGo();
  }
}

/** Put anything else into the outbox: a photograph's bytes, its words, or that the survey is complete. */
export async function addItem(item) {
  await inTransaction(["outbox", "facts"], "readwrite", (stores) => put(stores, item));
  tellNews();
}

async function put(stores, item) {
  const counted = await asked(stores.facts.get("changes"));
  const number = (counted?.value ?? 0) + 1;
  await asked(stores.facts.put({ name: "changes", value: number }));
  await asked(
    stores.outbox.add({
      ...item, number, id: newName(), made_at: new Date().toISOString(), tried: 0, state: "waiting", words: "",
    }),
  );
}

async function lastOf(outbox) {
  const cursor = await asked(outbox.openCursor(null, "prev"));
  return cursor?.value ?? null;
}

/** The office takes this many answers in one change, and a few more. */
const MOST_FIELDS = 400;

function mayGrow(item, about) {
  return (
    !item.body && item.tried === 0 && item.fields !== undefined && Object.keys(item.fields).length < MOST_FIELDS &&
    ["survey", "person", "kind", "section", "form"].every((name) => item[name] === about[name])
  );
}

/** Return every item, oldest first. */
export function items() {
  return readAll("outbox");
}

/** Return the changed answers of one page of a survey, the newest of each: name -> text. */
export async function unsentAnswers(survey, section) {
  const answers = {};
  for (const item of await items()) {
    if (item.survey === survey && item.section === section) {
      for (const [name, [, after]] of Object.entries(item.fields)) answers[name] = after;
    }
  }
  return answers;
}

/** Begin to send an item and return it as it stands: from now on it does not grow, or what came late were lost. */
export function takeUp(place) {
  return inTransaction(["outbox"], "readwrite", async ({ outbox }) => {
    const item = await asked(outbox.get(place));
    if (!item) return null;
    item.tried += 1;
    await asked(outbox.put(item));
    return item;
  });
}

/** Write an item back, unless it was deleted meanwhile. */
export async function keepItem(item) {
  await inTransaction(["outbox"], "readwrite", async ({ outbox }) => {
    if (await asked(outbox.get(item.place))) await asked(outbox.put(item));
  });
  tellNews();
}

/** Take an item out: the office has it, or a person chose to delete it. */
export async function dropItem(item) {
  await remove("outbox", item.place);
  tellNews();
}
