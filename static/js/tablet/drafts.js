/**
 * What was typed in the last half second, written at once and in full, for the moment when the page goes.
 *
 * A database answers later; a page that is left, or a battery that is flat, does not wait for it. A draft may
 * come into the outbox twice and does no harm: an answer that stands already is no change.
 */

const PREFIX = "eavesbook-draft ";

/** Write down what is not in the outbox yet. */
export function keepDraft(about, fields) {
  const name = nameOf(about);
  if (Object.keys(fields).length) localStorage.setItem(name, JSON.stringify({ about, fields }));
  else localStorage.removeItem(name);
}

/** Return the drafts that an earlier page left behind, and a way to let each go. */
export function drafts() {
  return Object.keys(localStorage)
    .filter((name) => name.startsWith(PREFIX))
    .map((name) => [name, localStorage.getItem(name)])
    .map(([name, text]) => ({ ...JSON.parse(text), letGo: () => letGo(name, text) }));
}

/** Let a draft go, but not another one that was written in its place meanwhile. */
function letGo(name, text) {
  if (localStorage.getItem(name) === text) localStorage.removeItem(name);
}

/** Forget every draft: the person signed out. */
export function wipeDrafts() {
  for (const draft of drafts()) draft.letGo();
}

function nameOf({ survey, kind, section }) {
  return `${PREFIX}${survey} ${kind} ${section}`;
}
