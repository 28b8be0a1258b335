/** Keep the screen awake while somebody measures, where the browser allows it. */

export function stayAwake() {
  if (!("wakeLock" in navigator)) return;
  const ask = () => {
    if (document.visibilityState === "visible") navigator.wakeLock.request("screen").catch(() => {});
  };
  document.addEventListener("visibilitychange", ask); // the lock is lost whenever the page is hidden
  ask();
}
