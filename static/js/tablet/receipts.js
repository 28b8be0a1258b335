/** What a receipt of the office changes on this tablet. */

import { carry, noteHeld } from "./carried.js";
import { remove, write } from "./store.js";

/** Take over what the office now holds; only after this may the item go. */
export async function takeReceipt(item, receipt) {
  if (item.kind === "photograph") await remove("pictures", item.says.digest);
  await write("facts", { name: "last receipt", value: receipt?.received_at ?? "", survey: item.survey });
  if (item.fields) {
    const aside = new Set((receipt.aside ?? []).map(({ name }) => name));
    const taken = Object.entries(item.fields).filter(([name]) => !aside.has(name));
    const held = taken.map(([name, [, after]]) => [name, after]);
    await noteHeld(item.survey, item.section, Object.fromEntries(held), receipt.changed_at);
  }
  if (receipt?.state === "kept aside" || item.kind === "photograph" || item.kind === "complete") {
    await carry(item.survey);
  }
  if (receipt?.state === "kept aside") await noteAside(item, receipt);
}

async function noteAside(item, receipt) {
  await write("facts", { name: `aside ${item.survey}`, value: receipt.words, at: receipt.received_at });
}
