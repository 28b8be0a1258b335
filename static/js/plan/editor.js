// @ts-check
/** The entry of the plan page: opens the drawing over the form, which stays the only truth. */

import { aboutFromTablet } from "./about.js";
import { listen } from "./gestures.js";
import { handsOn } from "./hands.js";
import { listenToKeys } from "./keyboard.js";
import { PlanEditor } from "./plan_editor.js";

/** @param {HTMLFormElement} form the page's answers; found anew whenever htmx has put another in its place */
export function openPlanEditor(form) {
  const root = /** @type {HTMLElement | null} */ (document.querySelector("[data-plan-editor]"));
  if (!root) {
    return null;
  }
  /** @returns {HTMLFormElement | null} */
  const findForm = () => (form.isConnected ? form : document.querySelector(`form#${form.id}`));
  root.hidden = false;
  const editor = new PlanEditor(root, findForm);
  fitToPage(editor);
  listen(editor.drawing, handsOn(editor));
  listenToKeys(editor.drawing, root, editor);
  listenToForm(editor);
  askTablet(editor, form);
  return editor;
}

/** @param {PlanEditor} editor the drawing takes the room that the page gives it */
function fitToPage(editor) {
  const { drawing, view } = editor;
  const size = () => {
    const { width, height } = drawing.getBoundingClientRect();
    if (width && height && (width !== view.width || height !== view.height || !drawing.hasAttribute("viewBox"))) {
      view.width = width;
      view.height = height;
      drawing.setAttribute("viewBox", `0 0 ${width} ${height}`);
      editor.refresh();
    }
  };
  new ResizeObserver(size).observe(drawing);
  size();
}

/** @param {PlanEditor} editor hears what is typed in the table, or comes into it from elsewhere */
function listenToForm(editor) {
  let waits = false;
  const later = () => {
    if (!waits) {
      waits = true;
      requestAnimationFrame(() => {
        waits = false;
        editor.refresh();
      });
    }
  };
  /** @param {Event} event */
  const isOurs = event => {
    const form = editor.findForm();
    return !editor.isWriting && form !== null && event.target instanceof Node && form.contains(event.target);
  };
  document.addEventListener("input", event => {
    if (isOurs(event)) {
      if (event.target !== document.activeElement) {
        editor.history.adopt();
      }
      later();
    }
  });
  document.addEventListener("change", event => {
    if (isOurs(event)) {
      editor.history.keep();
      later();
    }
  });
  document.addEventListener("htmx:afterSettle", later);
}

/** What other pages of the visit say may stand on this tablet alone. @param {PlanEditor} editor
 * @param {HTMLFormElement} form */
async function askTablet(editor, form) {
  const about = await aboutFromTablet(form);
  if (about) {
    editor.about = about;
    editor.refresh();
  }
}

const answers = /** @type {HTMLFormElement | null} */ (document.querySelector("form#answers"));
if (answers) {
  openPlanEditor(answers);
}
