/** The page "On this tablet": each unsent item with its state, and the surveys that can be gone on with. */

import { setUpSheetSwitch } from "../survey/sheet_switch.js";
import { carriedSurveys, carryAll } from "./carried.js";
import { copyOut } from "./copies.js";
import { askToKeep, roomLeft } from "./keeping.js";
import { pagesAreKept, setUpOffline } from "./offline.js";
import { dropItem, items, keepItem, onNews } from "./outbox.js";
import { personHere } from "./person.js";
import { sendNow } from "./sending.js";
import { showState } from "./state_line.js";
import { canKeep, remove } from "./store.js";

const A_DAY_MS = 24 * 60 * 60 * 1000;
const KINDS = {
  answers: "Answers", hazards: "Hazards", bytes: "A photograph", photograph: "What a photograph shows",
  complete: "Survey complete",
};
const STATES = { waiting: "Waits to be sent", "sign in": "Waits for you to sign in", refused: "Not taken by the office" };
const place = (name) => document.querySelector(`#${name}`);

setUpSheetSwitch();
if (canKeep()) await open();
else place("cannot-keep").hidden = false;

async function open() {
  setUpOffline();
  await personHere();
  await showState(place("tablet-state"), null);
  onNews(show);
  place("send-all").addEventListener("click", sendNow);
  place("copy-all").addEventListener("click", async () => copyOut(await items()));
  await show();
  await showKeeping();
  await carryAll();
}

async function show() {
  const [unsent, carried] = [await items(), await carriedSurveys()];
  const addresses = new Map(carried.map((survey) => [survey.number, survey.address]));
  place("unsent").replaceChildren(...unsent.map((item) => shown(item, addresses.get(item.survey))));
  place("carried").replaceChildren(...carried.map(link));
  place("none-unsent").hidden = unsent.length > 0;
  place("none-carried").hidden = carried.length > 0;
  place("send-all").hidden = place("copy-all").hidden = unsent.length === 0;
  await warn(unsent);
}

function shown(item, address) {
  const piece = place("unsent-item").content.cloneNode(true);
  const section = item.section ? `, ${item.section}` : "";
  piece.querySelector(".unsent__what").textContent =
    `${KINDS[item.kind]}${section}: ${item.survey}${address ? `, ${address}` : ""}`;
  piece.querySelector(".unsent__state").textContent =
    `${STATES[item.state]}, since ${new Date(item.made_at).toLocaleString("en-GB")}. ${item.words}`;
  piece.querySelector(".unsent__body").textContent = JSON.stringify(item.fields ?? item.says, null, 1);
  const acts = { retry: () => retry(item), copy: () => copyOut([item]), delete: () => letGo(item) };
  for (const button of piece.querySelectorAll("[data-act]")) {
    button.addEventListener("click", acts[button.dataset.act]);
  }
  return piece;
}

async function retry(item) {
  await keepItem({ ...item, state: "waiting", words: "" });
  await sendNow();
}

async function letGo(item) {
  if (!confirm("Delete this from the tablet? The office does not have it, and nobody can bring it back.")) return;
  if (item.kind === "bytes") await remove("pictures", item.says.digest);
  await dropItem(item);
}

function link(survey) {
  const row = document.createElement("li");
  row.className = "register__item";
  const anchor = document.createElement("a");
  anchor.className = "register__link";
  anchor.href = `/surveys/${survey.number}/arrive/`;
  anchor.textContent = survey.address;
  const about = document.createElement("span");
  about.className = "register__about";
  about.textContent = [survey.number, survey.town, survey.postcode, survey.customer].filter(Boolean).join(" · ");
  row.append(anchor, about);
  return row;
}

async function warn(unsent) {
  const room = await roomLeft();
  const words = [
    unsent.length && Date.now() - Date.parse(unsent[0].made_at) > A_DAY_MS &&
      "Something here is over a day old and still not in the office. Find a signal, or copy it out to a file.",
    room?.isShort && "This tablet is nearly full: send what is here, and make room before you take photographs.",
  ].filter(Boolean);
  place("warning").hidden = !words.length;
  place("warning").textContent = words.join(" ");
}

async function showKeeping() {
  const room = await roomLeft();
  const told = [
    (await askToKeep()) ? "The browser promises to keep what is here until you sign out."
      : "The browser makes no promise: it may clear what is here when the tablet is full.",
    (await pagesAreKept()) ? "The pages of a survey open without a signal."
      : "The pages are not kept yet: they are fetched while there is a signal.",
    room && `Room left: about ${Math.floor(room.free / 1024 / 1024)} MB.`,
  ].filter(Boolean);
  place("keeping").replaceChildren(...told.map((words) => Object.assign(document.createElement("li"), { textContent: words })));
}
