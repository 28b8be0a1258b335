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
  const boxes = await boxesOf(section);
  const answers = Object.entries(await answersHere(survey, section)).filter(([, text]) => text);
  const rows = answers.map(([name]) => rowOf(name)).filter(Boolean);
  const lines = answers.map(([name, text]) => lineOf(boxes, rows, name, text)).sort(byPlace);
  if (!lines.length) return;
  const list = document.createElement("dl");
  list.className = "read-back";
  for (const { question, answer } of lines) list.append(textOf("dt", question), textOf("dd", answer));
  const title = document.querySelector(`[data-section="${section}"]`).firstChild.textContent.trim();
  document.querySelector("#read-back").append(textOf("h2", title), list);
}

async function boxesOf(section) {
  const answer = await caches.match(`/surveys/kept/${section}/`);
  const page = new DOMParser().parseFromString(answer ? await answer.text() : "", "text/html");
  for (const template of page.querySelectorAll("template[data-row]")) template.replaceWith(template.content);
  return [...page.querySelectorAll("#answers [name]")];
}

/** Say one answer in the words of its page, and where on the page it stands. */
function lineOf(boxes, rows, name, text) {
  const row = rowOf(name);
  const asked = row ? `${row.kind}-__n__-${row.field}` : name;
  const found = boxes.filter((box) => box.name === asked);
  const box = found.find((each) => each.type !== "radio" || each.value === text);
  if (!box) return { question: name, answer: text, place: [boxes.length] };
  const first = row ? boxes.findIndex((each) => each.name.startsWith(`${row.kind}-`)) : boxes.indexOf(box);
  const place = [first, row?.number ?? 0, boxes.indexOf(box)];
  return { question: [...whose(box, row, rows), questionOf(box)].join(": "), answer: answerOf(box, text), place };
}

function byPlace(one, other) {
  const at = one.place.findIndex((each, level) => each !== other.place[level]);
  return at < 0 ? 0 : one.place[at] - (other.place[at] ?? 0);
}

/** A row of the plan is called by its place, and what was seen of a hazard by the hazard. */
function whose(box, row, rows) {
  if (row) {
    const before = rows.filter((each) => each.kind === row.kind && each.number < row.number);
    const count = new Set(before.map(({ number }) => number)).size + 1;
    return [`${wordsOf(box.closest(".row").querySelector(".row__name"))} ${count}`];
  }
  return box.name.startsWith("words_") ? [wordsOf(box.closest(".form__group").querySelector("legend"))] : [];
}

function questionOf(box) {
  const label = box.closest(".field").querySelector(".field__label, legend");
  label.querySelector(".field__optional")?.remove();
  return wordsOf(label);
}

function answerOf(box, text) {
  if (box.type === "radio") return wordsOf(box.closest("label"));
  return box.options ? wordsOf([...box.options].find((option) => option.value === text)) || text : text;
}

function wordsOf(element) {
  return element?.textContent.replace(/\s+/g, " ").trim() ?? "";
}

function textOf(tag, words) {
  return Object.assign(document.createElement(tag), { textContent: words });
}
