/** Read a survey back from the tablet alone: each answer under its question, in the order of the visit. */

import { answersHere } from "../tablet/carried.js";
import { setUpOffline } from "../tablet/offline.js";
import { addItem } from "../tablet/outbox.js";
import { personHere } from "../tablet/person.js";
import { showState } from "../tablet/state_line.js";
import { rowOf } from "./rows.js";
import { setUpSheetSwitch } from "./sheet_switch.js";
import { fillShell, surveyOfAddress } from "./shell.js";

const survey = surveyOfAddress();
const completing = document.querySelector("#complete");
completing.addEventListener("click", complete, { once: true });
completing.disabled = false;
setUpSheetSwitch();
setUpOffline();
await fillShell(survey);
for (const step of document.querySelectorAll("[data-needed]")) await readBack(step.dataset.section);
await showState(document.querySelector("#tablet-state"), survey);
async function complete(event) {
  const form = Number(document.querySelector("#read-back").dataset.formVersion);
  await addItem({ survey, person: await personHere(), form, kind: "complete", says: {} });
  event.target.disabled = true;
  document.querySelector("#completed").hidden = false;
}

async function readBack(section) {
  const answers = await answersHere(survey, section);
  const asked = await questionsOf(section);
  const lines = Object.entries(answers).filter(([, text]) => text).map(([name, text]) => asked(name, text));
  if (!lines.length) return;
  const list = document.createElement("dl");
  list.className = "read-back";
  for (const [question, shown] of lines) list.append(textOf("dt", question), textOf("dd", shown));
  const title = document.querySelector(`[data-section="${section}"]`).firstChild.textContent.trim();
  document.querySelector("#read-back").append(textOf("h2", title), list);
}

/** Return a function from a name and its answer to the question's words and the answer's words. */
async function questionsOf(section) {
  const answer = await caches.match(`/surveys/kept/${section}/`);
  const page = new DOMParser().parseFromString(answer ? await answer.text() : "", "text/html");
  const places = {};
  return (name, text) => {
    const row = rowOf(name);
    const asked = row ? `${row.kind}-__n__-${row.field}` : name;
    const root = row ? page.querySelector(`template[data-row="${row.kind}"]`)?.content : page;
    const boxes = [...(root?.querySelectorAll(`[name="${CSS.escape(asked)}"]`) ?? [])];
    const box = boxes.find((each) => each.type !== "radio" || each.value === text) ?? boxes[0];
    const label = wordsOf(box?.closest(".field")?.querySelector(".field__label, legend")) || name;
    const shown = box?.type === "radio" ? wordsOf(box.closest("label")) : text;
    if (!row) return [label, shown || text];
    const numbers = (places[row.kind] ??= []);
    if (!numbers.includes(row.number)) numbers.push(row.number);
    return [`${wordsOf(root?.querySelector(".row__name"))} ${numbers.indexOf(row.number) + 1}: ${label}`, shown || text];
  };
}

function wordsOf(element) {
  return element?.textContent.replace(/\s+/g, " ").trim() ?? "";
}

function textOf(tag, words) {
  return Object.assign(document.createElement(tag), { textContent: words });
}
