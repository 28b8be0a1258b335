/** Whether the browser promises to keep what lies on the tablet, and how much room is left. */

import { write } from "./store.js";

const SHORT_BYTES = 100 * 1024 * 1024;

/** Ask the browser not to clear the tablet's surveys, and remember its answer. */
export async function askToKeep() {
  const kept = (await navigator.storage?.persisted?.()) || (await navigator.storage?.persist?.()) || false;
  await write("facts", { name: "kept", value: kept });
  return kept;
}

/** @returns {Promise<{free: number, isShort: boolean}|null>} free room. [bytes] */
export async function roomLeft() {
  const told = await navigator.storage?.estimate?.();
  if (!told?.quota) return null;
  const free = told.quota - told.usage;
  return { free, isShort: free < SHORT_BYTES };
}
