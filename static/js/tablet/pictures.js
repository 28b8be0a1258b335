/** Photographs of a survey: those that lie on this tablet, and those that the office has. */

import { carriedSurvey } from "./carried.js";
import { sha256 } from "./digests.js";
import { addItem, items } from "./outbox.js";
import { shrink } from "./shrinking.js";
import { asked, inTransaction, readAll } from "./store.js";

/**
 * @typedef {object} Words what is told with a photograph
 * @property {string} shows @property {string} hazard its key, "" for none
 * @property {number|null} left_mm @property {number|null} front_mm its place on the plan [mm]
 */

/** Keep a photograph on the tablet, and put its bytes and then its words into the outbox. */
export async function addPicture(about, file, words) {
  const bytes = await shrink(file);
  const digest = await sha256(bytes);
  const held = (await picturesHere(about.survey)).some((picture) => picture.digest === digest);
  if (held) return digest;
  await inTransaction(["pictures"], "readwrite", ({ pictures }) =>
    asked(pictures.put({ digest, bytes, survey: about.survey })),
  );
  await addItem({ ...about, kind: "bytes", says: { digest } });
  await tellWords(about, digest, words);
  return digest;
}

/** Put a photograph's words into the outbox, at first or once more. */
export function tellWords(about, digest, words) {
  return addItem({ ...about, kind: "photograph", says: { digest, ...words } });
}

/**
 * Return every photograph of a survey with its newest words, those in the office first.
 *
 * @returns {Promise<(Words & {digest: string, url: string|null, bytes: ArrayBuffer|null, waits: boolean})[]>}
 */
export async function picturesHere(number) {
  const found = new Map();
  for (const picture of (await carriedSurvey(number))?.photographs ?? []) {
    found.set(picture.sent_sha256 || `office ${picture.id}`, { ...picture, digest: picture.sent_sha256, bytes: null, waits: false });
  }
  for (const picture of await readAll("pictures")) {
    if (picture.survey === number) {
      found.set(picture.digest, { url: null, shows: "", hazard: "", ...found.get(picture.digest), ...picture, waits: true });
    }
  }
  for (const item of await items()) {
    if (item.kind === "photograph" && item.survey === number && found.has(item.says.digest)) {
      Object.assign(found.get(item.says.digest), item.says);
    }
  }
  return [...found.values()];
}
