/** Who measures here. A page that was kept on the tablet does not know; the last page from the office did. */

import { read, write } from "./store.js";

/** Return the person's number as text, or "" while nobody is known. */
export async function personHere() {
  const known = (await read("facts", "person"))?.value ?? "";
  if (document.body.hasAttribute("data-shell")) return known;
  const signedIn = document.body.dataset.person ?? "";
  if (signedIn && signedIn !== known) await write("facts", { name: "person", value: signedIn });
  return signedIn;
}
