// @ts-check
/** The few elements that the bench beside the drawing is made of. */

/** @param {string} tag @param {string} [name] its class @param {string} [words] @returns {HTMLElement} */
export function made(tag, name = "", words = "") {
  const element = document.createElement(tag);
  if (name) {
    element.className = name;
  }
  element.textContent = words;
  return element;
}

/** @param {string} words @param {() => void} press @param {boolean} [isPressed] @returns {HTMLButtonElement} */
export function button(words, press, isPressed) {
  const element = /** @type {HTMLButtonElement} */ (made("button", "button plan-editor__button", words));
  element.type = "button";
  if (isPressed !== undefined) {
    element.setAttribute("aria-pressed", String(isPressed));
  }
  element.addEventListener("click", press);
  return element;
}
