/** Have the pages of the visit kept on this tablet, so that they open without a signal. */

/** Keep the pages, and tell the keeper when the signal comes back. */
export function setUpOffline() {
  if (!("serviceWorker" in navigator)) return;
  navigator.serviceWorker.register("/sw.js").catch(() => {}); // the state line tells what is not kept
  addEventListener("online", () => navigator.serviceWorker.controller?.postMessage("signal"));
}

/** Tell whether the pages are kept. */
export async function pagesAreKept() {
  if (!("serviceWorker" in navigator)) return false;
  const names = await caches.keys();
  const kept = names.some((name) => name.startsWith("eavesbook-pages-"));
  return kept && Boolean((await navigator.serviceWorker.getRegistration())?.active);
}

/** Remove the kept pages and the script that serves them. */
export async function forgetPages() {
  for (const name of await caches.keys()) {
    if (name.startsWith("eavesbook-pages-")) await caches.delete(name);
  }
  for (const registration of (await navigator.serviceWorker?.getRegistrations()) ?? []) {
    await registration.unregister();
  }
}
