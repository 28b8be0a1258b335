/** Change between the light and the dark sheet at once, also without a signal. */

const A_YEAR_S = 365 * 24 * 60 * 60;

/** Let the switch act on the page itself, and take over what was chosen since the page was kept. */
export function setUpSheetSwitch() {
  const chosen = /(?:^|; )sheet=(light|dark)/.exec(document.cookie)?.[1] ?? "device";
  choose(chosen);
  document.addEventListener("click", (event) => {
    const button = event.target.closest("button[name=sheet]");
    if (!button) return;
    event.preventDefault();
    const kept = button.value === "device" ? 0 : A_YEAR_S;
    document.cookie = `sheet=${button.value}; path=/; max-age=${kept}; samesite=lax`;
    choose(button.value);
  });
}

function choose(sheet) {
  if (sheet === "device") delete document.documentElement.dataset.sheet;
  else document.documentElement.dataset.sheet = sheet;
  for (const button of document.querySelectorAll("button[name=sheet]")) {
    button.setAttribute("aria-pressed", String(button.value === sheet));
  }
}
