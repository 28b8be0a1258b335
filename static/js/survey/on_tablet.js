/** A page of the visit on a tablet that keeps what is typed: no answer waits for the network. */

import { carry } from "../tablet/carried.js";
import { askToKeep } from "../tablet/keeping.js";
import { setUpOffline } from "../tablet/offline.js";
import { items } from "../tablet/outbox.js";
import { personHere } from "../tablet/person.js";
import { sendNow } from "../tablet/sending.js";
import { showState } from "../tablet/state_line.js";
import { takePhotographs } from "./photographs.js";
import { fillShell, surveyOfAddress } from "./shell.js";
import { writeThrough } from "./write_through.js";

const PATIENCE_MS = 1500;

/** @param {HTMLFormElement} form */
export async function openOnTablet(form) {
  const isShell = document.body.hasAttribute("data-shell");
  const survey = isShell ? surveyOfAddress() : form.dataset.survey;
  const { section, formVersion } = form.dataset;
  const about = {
    survey, section, isShell, form: Number(formVersion), person: await personHere(),
    kind: section === "hazards" ? "hazards" : "answers",
  };
  setUpOffline();
  takeOver(form);
  if (isShell) await fillShell(survey);
  const keeper = section === "photographs" ? null : await writeThrough(form, about, () => showFigures(about));
  if (section === "photographs") await takePhotographs(form, { survey, person: about.person, form: about.form });
  leaveByLinks(form, about, async () => keeper?.keep());
  await showState(document.querySelector("#tablet-state"), survey);
  document.body.dataset.ready = "true";
  if (!isShell) await carry(survey);
  askToKeep();
}

/** From here on the outbox sends what changes; htmx would send it a second time. */
function takeOver(form) {
  document.body.addEventListener("htmx:beforeRequest", (event) => {
    const cause = event.detail.requestConfig.triggeringEvent?.type;
    if (event.detail.elt === form && cause === "change") event.preventDefault();
  });
}

let figuresAreOld = false;
let asksForFigures = false;

/**
 * Ask the office for the figures, now that it holds what they are worked out from. One answer at a time: it
 * replaces the very place that the next answer is for.
 */
async function showFigures({ survey, section, isShell }) {
  if (isShell) return;
  figuresAreOld = true;
  if (asksForFigures) return;
  asksForFigures = true;
  while (figuresAreOld) {
    figuresAreOld = false;
    const shown = window.htmx.ajax("GET", `/surveys/${survey}/${section}/figures/`, {
      source: "#figures", target: "#figures", swap: "outerHTML",
    });
    await shown.catch(() => {}); // no signal: the figures come with the next answer
  }
  asksForFigures = false;
}

/** Back, Save and Next go at once: what was typed is on the tablet before the page is left. */
function leaveByLinks(form, { survey, section }, keep) {
  document.addEventListener("submit", async (event) => {
    const button = event.submitter;
    if (event.target !== form || !button || form.dataset.sent === "true") return;
    event.preventDefault();
    await keep();
    if (button.dataset.to !== undefined) {
      if (navigator.onLine) await Promise.race([sendNow(), pause(PATIENCE_MS)]); // the next page shows figures
      location.assign(button.dataset.to.replaceAll("S-0000-0000", survey));
    } else if (button.value === "save") sendNow();
    else await askTheOffice(form, button, survey);
  });
}

function pause(milliseconds) {
  return new Promise((resolve) => {
    setTimeout(resolve, milliseconds);
  });
}

/** Send a form whose answer only the office can give, once it has all that was typed. */
async function askTheOffice(form, button, survey) {
  await sendNow();
  if ((await items()).some((item) => item.survey === survey && item.state !== "refused")) {
    document.querySelector("#needs-signal").hidden = false;
    return;
  }
  form.dataset.sent = "true";
  form.elements.csrfmiddlewaretoken.value = /(?:^|; )csrftoken=([^;]+)/.exec(document.cookie)?.[1] ?? "";
  form.requestSubmit(button);
}
