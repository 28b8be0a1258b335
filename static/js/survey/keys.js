// @ts-check
/**
 * The visit from a keyboard, as when a paper sheet is typed in at a desk.
 *
 * Enter goes to the next question, Control and Enter to the next page, and a letter picks a choice. Without
 * scripts Enter sends the page and goes on to the next one.
 */

/** @typedef {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} Question */

/** @param {HTMLFormElement} form */
export function watchKeys(form) {
  form.addEventListener("keydown", (event) => {
    const question = event.target;
    if (event.defaultPrevented || event.isComposing || event.altKey || !isQuestion(question)) return;
    const toNextPage = event.ctrlKey || event.metaKey;
    if (event.key === "Enter" && toNextPage) nextButton()?.click();
    else if (event.key === "Enter" && question instanceof HTMLTextAreaElement) return;
    else if (event.key === "Enter") (after(form, question) ?? nextButton())?.focus();
    else if (toNextPage || question.type !== "radio" || !pickByLetter(form, question, event.key)) return;
    event.preventDefault();
  });
  if (!matchMedia("(hover: hover) and (pointer: fine)").matches) return; // a keypad would cover half the page
  document.querySelector("#keys")?.removeAttribute("hidden");
  if (cameFromAnotherPage()) questionsOf(form)[0]?.focus();
}

/**
 * @param {EventTarget | null} target
 * @returns {target is Question}
 */
function isQuestion(target) {
  if (target instanceof HTMLInputElement) return !["hidden", "submit", "button", "file"].includes(target.type);
  return target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement;
}

function nextButton() {
  return /** @type {HTMLButtonElement | null} */ (document.querySelector('.foot-bar__act[value="next"]'));
}

/**
 * Return the questions in sight in the order of the page; a group of choices is one question.
 *
 * @param {HTMLFormElement} form
 * @returns {Question[]}
 */
function questionsOf(form) {
  const inSight = [...form.elements].filter(isQuestion).filter((box) => !box.disabled && isInSight(box));
  return inSight.filter((box) => box.type !== "radio" || box === standsFor(form, box));
}

/** @param {Element} box */
function isInSight(box) {
  return !box.closest("details:not([open])") && box.getClientRects().length > 0;
}

/**
 * Return the choice of a group that the Tab key stops at: the one picked, else the first.
 *
 * @param {HTMLFormElement} form @param {Question} box
 */
function standsFor(form, box) {
  const group = choicesOf(form, box);
  return group.find((choice) => choice.checked) ?? group[0];
}

/**
 * @param {HTMLFormElement} form @param {Question} box
 * @returns {HTMLInputElement[]}
 */
function choicesOf(form, box) {
  const boxes = /** @type {HTMLInputElement[]} */ ([...form.elements].filter(isQuestion));
  return boxes.filter((each) => each.type === "radio" && each.name === box.name);
}

/**
 * Return the question after one, past words that nobody need write.
 *
 * @param {HTMLFormElement} form @param {Question} question
 */
function after(form, question) {
  const questions = questionsOf(form);
  const here = questions.findIndex((each) => each.name === question.name);
  return questions.slice(here + 1).find((each) => !isNeedless(form, each));
}

/**
 * Tell whether a box asks what was seen of a hazard that is not there.
 *
 * @param {HTMLFormElement} form @param {Question} question
 */
function isNeedless(form, question) {
  const [words, hazard] = question.name.split(/_(.*)/);
  return words === "words" && form.querySelector(`[name="seen_${hazard}"]:checked`)?.getAttribute("value") === "no";
}

/**
 * Pick the next choice of a group whose words begin with a letter.
 *
 * @param {HTMLFormElement} form @param {Question} box @param {string} letter
 * @returns {boolean} whether there is such a choice
 */
function pickByLetter(form, box, letter) {
  if (letter.trim().length !== 1) return false;
  const group = choicesOf(form, box);
  const from = group.findIndex((choice) => choice === box && choice.checked) + 1;
  const inTurn = [...group.slice(from), ...group.slice(0, from)];
  const begins = (/** @type {HTMLInputElement} */ choice) => choice.closest("label")?.textContent?.trim() ?? "";
  const found = inTurn.find((choice) => begins(choice).toLowerCase().startsWith(letter.toLowerCase()));
  found?.focus();
  found?.click();
  return found !== undefined;
}

/** Tell whether this page was opened from another page of the same survey, as by Next. */
function cameFromAnotherPage() {
  if (!document.referrer || location.hash || document.querySelector(".error-summary")) return false;
  const [, from, fromPage] = new URL(document.referrer).pathname.split("/").slice(1);
  const [, here, herePage] = location.pathname.split("/").slice(1);
  return document.activeElement === document.body && from === here && fromPage !== herePage;
}
