/** Copy what lies on the tablet out to a file, so that a person can bring it to the office by hand. */

import { read } from "./store.js";

/** Offer a file for download with these items; photographs go along as text. */
export async function copyOut(list) {
  const copies = [];
  for (const item of list) {
    const picture = item.kind === "bytes" ? await read("pictures", item.says.digest) : null;
    copies.push(picture ? { ...item, jpeg: asBase64(picture.bytes) } : item);
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([JSON.stringify(copies, null, 2)], { type: "application/json" }));
  link.download = `eavesbook-${list[0]?.survey ?? "tablet"}-unsent.json`;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

function asBase64(bytes) {
  let text = "";
  for (const byte of new Uint8Array(bytes)) text += String.fromCharCode(byte);
  return btoa(text);
}
