// @ts-check
/**
 * Keys for units over the foot bar while a length box has the focus.
 *
 * A keypad of large digits suits a glove, but it has no letters for units, and on some devices no comma and no
 * minus. So the boxes ask for the keypad and the keys beside it write the rest: nobody needs letters, and
 * whoever wants them has a key for them. The keys stand where the thumb is and move nothing under a finger.
 * They come only where something is tapped; without scripts the boxes keep the keyboard with letters.
 */

import { boxesOf, kindOf, lengthBox } from "./length_boxes.js";

/** @typedef {import("./length_boxes.js").Box} Box */

const UNITS = ["m", "cm", "mm", "ft", "in"];
const ALSO = { lengths: [","], spans: [","], offsets: [",", "−"], corners: [",", ";"] };
const SAID = { ",": "comma, next one", ";": "semicolon, next corner", "−": "minus", ABC: "letters", 123: "digits" };
const ENDS_WITH_UNIT = /\s*(?:mm|cm|m|ft|in|'|")\s*$/i;

/** What the boxes ask for; one for the page, so that letters stay letters from box to box. */
let keypad = "decimal";

/** @param {HTMLFormElement} form one of the forms of the page; they share the keys */
export function offerUnitKeys(form) {
  const foot = document.querySelector(".survey-foot");
  if (!foot || !matchMedia("(any-pointer: coarse)").matches) return;
  const keys = /** @type {HTMLElement} */ (foot.querySelector(".unit-keys") ?? makeKeys(foot));
  for (const box of boxesOf(form)) box.inputMode = keypad;
  // Before the focus, so that a box of a row that was added later opens the same keypad.
  form.addEventListener("pointerdown", ({ target }) => {
    const box = lengthBox(target);
    if (box) box.inputMode = keypad;
  });
  form.addEventListener("focusin", ({ target }) => {
    const box = lengthBox(target);
    if (box) show(keys, box);
    else keys.hidden = true;
  });
  form.addEventListener("focusout", ({ relatedTarget }) => {
    const stays = relatedTarget instanceof Node && (keys.contains(relatedTarget) || lengthBox(relatedTarget));
    if (!stays) keys.hidden = true;
  });
  form.addEventListener("keydown", (event) => {
    if (event.key !== "ArrowDown" || !(event.target instanceof HTMLInputElement) || keys.hidden) return;
    event.preventDefault();
    /** @type {HTMLElement} */ (keys.firstElementChild).focus();
  });
}

/** @param {Element} foot */
function makeKeys(foot) {
  const keys = document.createElement("div");
  keys.className = "unit-keys";
  keys.hidden = true;
  keys.setAttribute("role", "toolbar");
  keys.setAttribute("aria-label", "Units");
  foot.prepend(keys);
  keepOverKeyboard(keys);
  return keys;
}

/** @param {HTMLElement} keys @param {Box} box */
function show(keys, box) {
  const also = ALSO[kindOf(box)] ?? [];
  const letters = keypad === "decimal" ? "ABC" : "123";
  keys.replaceChildren(...[...UNITS, ...also, letters].map((key) => keyButton(key, () => press(box, key))));
  keys.hidden = false;
  box.scrollIntoView({ block: "nearest" }); // moves only what the keys would cover
}

/** @param {Box} box @param {string} key */
function press(box, key) {
  if (key === "ABC" || key === "123") {
    keypad = key === "ABC" ? "text" : "decimal";
    for (const form of document.forms) for (const each of boxesOf(form)) each.inputMode = keypad;
    box.blur(); // a keypad changes only when the box is entered anew
    box.focus();
  } else if (UNITS.includes(key)) writeUnit(box, key);
  else if (key === "−") replace(box, caretOf(box), "-");
  else replace(box, box.value.slice(0, caretOf(box)).trimEnd().length, `${key} `);
}

/** @param {string} key @param {() => void} press */
function keyButton(key, press) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button unit-keys__key";
  button.tabIndex = -1; // whoever tabs also types; the arrows lead here
  button.textContent = key;
  if (SAID[key]) button.setAttribute("aria-label", SAID[key]);
  button.addEventListener("pointerdown", (event) => event.preventDefault()); // the box keeps its keypad
  button.addEventListener("click", press);
  button.addEventListener("keydown", (event) => {
    const step = { ArrowRight: "nextElementSibling", ArrowLeft: "previousElementSibling" }[event.key];
    if (step) button[step]?.focus();
  });
  return button;
}

/**
 * Put a unit behind the number before the caret, in place of one that stands there.
 *
 * @param {Box} box
 * @param {string} unit
 */
function writeUnit(box, unit) {
  const number = box.value.slice(0, caretOf(box)).replace(ENDS_WITH_UNIT, "").trimEnd();
  if (/[0-9½¼¾]$/.test(number)) replace(box, number.length, ` ${unit}`);
}

/** @param {Box} box */
function caretOf(box) {
  return box.selectionStart ?? box.value.length;
}

/** @param {Box} box @param {number} from @param {string} text */
function replace(box, from, text) {
  box.setRangeText(text, from, box.selectionEnd ?? box.value.length, "end");
  box.focus();
  box.dispatchEvent(new Event("input", { bubbles: true }));
  box.dispatchEvent(new Event("change", { bubbles: true }));
}

/**
 * A keyboard on the screen covers the foot of the page: then the keys stand over it.
 *
 * @param {HTMLElement} keys
 */
function keepOverKeyboard(keys) {
  const view = window.visualViewport;
  if (!view) return;
  const settle = () => {
    const coveredPx = Math.round(innerHeight - view.height - view.offsetTop);
    keys.classList.toggle("unit-keys--over-keyboard", coveredPx > 1);
    keys.style.bottom = `${Math.max(coveredPx, 0)}px`;
  };
  view.addEventListener("resize", settle);
  view.addEventListener("scroll", settle);
}
