/** One line in the head of every page of the visit: what is on this tablet only, and what the office has. */

import { items, onNews } from "./outbox.js";
import { personHere } from "./person.js";
import { read } from "./store.js";

const A_DAY_MS = 24 * 60 * 60 * 1000;

/** Keep the line right, whatever happens. */
export async function showState(line, survey) {
  const show = async () => say(line, await stateOf(survey));
  onNews(show);
  addEventListener("online", show);
  addEventListener("offline", show);
  await show();
}

/**
 * @param {string|null} survey its number, or null for every survey on the tablet
 * @returns {Promise<{mark: "office"|"tablet"|"refused", words: string}>}
 */
export async function stateOf(survey) {
  const waiting = (await items()).filter((item) => !survey || item.survey === survey);
  const refused = waiting.filter((item) => item.state === "refused");
  if (refused.length) return { mark: "refused", words: `${refused.length} on this tablet, not taken: see why` };
  if (!waiting.length) {
    const aside = survey && (await read("facts", `aside ${survey}`));
    return { mark: "office", words: aside ? "Saved in the office, some of it kept aside" : "Saved in the office" };
  }
  const pictures = waiting.filter((item) => item.kind === "bytes").length;
  const others = waiting.length - pictures;
  const counted = [
    others && `${others} change${others > 1 ? "s" : ""}`,
    pictures && `${pictures} photograph${pictures > 1 ? "s" : ""}`,
  ].filter(Boolean);
  const old = Date.now() - Date.parse(waiting[0].made_at) > A_DAY_MS;
  const why = waiting.some((item) => item.state === "sign in") ? ", sign in to send"
    : waiting[0].person !== (await personHere()) ? ", of another person"
    : old ? ", over a day old" : "";
  return { mark: "tablet", words: `${counted.join(", ")} on this tablet${why}` };
}

function say(line, { mark, words }) {
  line.hidden = false;
  line.className = `tablet-state tablet-state--${mark}`;
  if (line.textContent !== words) line.textContent = words;
}
