/** What a receipt of the office changes on this tablet. */

import { carry, carriedSurvey } from "./carried.js";
import { remove, write } from "./store.js";

/** Take over what the office now holds; only after this may the item go. */
export async function takeReceipt(item, receipt) {
  if (item.kind === "photograph") await remove("pictures", item.says.digest);
  await write("facts", { name: "last receipt", value: receipt?.received_at ?? "", survey: item.survey });
  const survey = await carriedSurvey(item.survey);
  if (survey && item.fields) {
    const held = item.kind === "hazards" ? survey.hazards : (survey.answers[item.section] ??= {});
    for (const [name, [, after]] of Object.entries(item.fields)) held[name] = after;
    await write("surveys", survey);
  }
  if (receipt?.state === "kept aside" || item.kind === "photograph" || item.kind === "complete") {
    await carry(item.survey);
  }
  if (receipt?.state === "kept aside") await noteAside(item, receipt);
}

async function noteAside(item, receipt) {
  await write("facts", { name: `aside ${item.survey}`, value: receipt.words, at: receipt.received_at });
}
