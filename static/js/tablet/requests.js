/** Requests to the office, whose answers are always said in plain words. */

const PATIENCE_MS = 20_000;

const WORDS = {
  0: "No answer from the office: no signal, or it is switched off.",
  401: "Sign in again: the office does not know who is sending.",
  403: "The office does not let you send this.",
  404: "The office does not know this survey.",
  413: "The office finds this too large.",
};

let wasCut = false;

/** Read the token that Django asks for; it is another one after each log-in. */
function token() {
  return document.cookie.match(/(?:^|; )csrftoken=([^;]+)/)?.[1] ?? "";
}

/**
 * Ask the office.
 *
 * @returns {Promise<{status: number, told: object|null, words: string}>} status 0 when no answer came
 */
export async function ask(address, options = {}) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), PATIENCE_MS);
  try {
    const answer = await fetch(address, {
      redirect: "manual", credentials: "same-origin", cache: "no-store", signal: stop.signal, ...options,
      headers: { Accept: "application/json", "X-CSRFToken": token(), ...options.headers },
    });
    if (wasCut) navigator.serviceWorker?.controller?.postMessage("signal");
    wasCut = false;
    return await read(answer);
  } catch {
    wasCut = true;
    return { status: 0, told: null, words: WORDS[0] };
  } finally {
    clearTimeout(timer);
  }
}

/** Send JSON. */
export function post(address, body) {
  return ask(address, { method: "POST", body, headers: { "Content-Type": "application/json" } });
}

async function read(answer) {
  if (answer.type === "opaqueredirect") return { status: 401, told: null, words: WORDS[401] };
  let told = null;
  try {
    told = await answer.json();
  } catch (broken) {
    if (answer.ok) throw broken; // an answer cut off in the middle is no answer
  }
  const words = told?.words ?? told?.error ?? WORDS[answer.status] ?? `The office answered ${answer.status}.`;
  return { status: answer.status, told, words: answer.status === 401 ? WORDS[401] : words };
}
