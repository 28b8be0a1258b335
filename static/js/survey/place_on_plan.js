/** Choose a place on the plan by one tap, or by two lengths from the datum. */

import { readLength } from "./lengths.js";
import { readPlan } from "../plan/read.js";
import { answersHere, carriedSurvey } from "../tablet/carried.js";

const SVG = "http://www.w3.org/2000/svg";
const MARGIN_MM = 400;

/**
 * @param {string} survey its number
 * @param {{left_mm: number|null, front_mm: number|null}} known
 * @returns {Promise<{left_mm: number, front_mm: number}|null>} null when nothing was chosen
 */
export async function choosePlace(survey, known) {
  const dialog = document.querySelector("#place");
  const [left, front] = [dialog.querySelector("[name=left]"), dialog.querySelector("[name=front]")];
  left.value = known.left_mm ?? "";
  front.value = known.front_mm ?? "";
  const unit = (await carriedSurvey(survey))?.unit ?? "mm";
  const drawing = dialog.querySelector("svg");
  const show = () => mark(drawing, readLength(left.value, unit).mm, readLength(front.value, unit).mm);
  await draw(drawing, survey, unit);
  drawing.onclick = (event) => {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(drawing.getScreenCTM().inverse());
    left.value = String(snapped(at.x));
    front.value = String(snapped(-at.y));
    show();
  };
  left.oninput = front.oninput = show;
  show();
  dialog.returnValue = "";
  dialog.showModal();
  await new Promise((resolve) => dialog.addEventListener("close", resolve, { once: true }));
  const chosen = { left_mm: readLength(left.value, unit).mm, front_mm: readLength(front.value, unit).mm };
  const isWhole = Number.isInteger(chosen.left_mm) && Number.isInteger(chosen.front_mm);
  return dialog.returnValue === "keep" && isWhole ? chosen : null;
}

function snapped(mm) {
  return Math.max(0, Math.round(mm / 50) * 50);
}

async function draw(drawing, survey, unit) {
  const answers = await answersHere(survey, "plan");
  const arrive = await answersHere(survey, "arrive");
  const plan = readPlan(new Map(Object.entries(answers)), {
    unit, hatchLongMm: readLength(arrive.hatch_long ?? "", unit).mm ?? 0,
    hatchShortMm: readLength(arrive.hatch_short ?? "", unit).mm ?? 0, joistWidthMm: 50,
  });
  const things = [plan.outline, ...plan.zones, plan.hatch, ...plan.keepOuts].filter((thing) => thing?.polygon);
  const corners = things.flatMap((thing) => thing.polygon);
  const [width, depth] = [0, 1].map((axis) => Math.max(1000, ...corners.map((corner) => corner[axis] ?? 0)));
  drawing.setAttribute("viewBox", `${-MARGIN_MM} ${-depth - MARGIN_MM} ${width + 2 * MARGIN_MM} ${depth + 2 * MARGIN_MM}`);
  drawing.replaceChildren(...things.map((thing) => {
    const shape = document.createElementNS(SVG, "polygon");
    shape.setAttribute("class", `place__thing place__thing--${thing.kind}`);
    shape.setAttribute("points", thing.polygon.map(([x, y]) => `${x},${-y}`).join(" "));
    return shape;
  }));
}

function mark(drawing, left, front) {
  drawing.querySelector(".place__mark")?.remove();
  if (!Number.isInteger(left) || !Number.isInteger(front)) return;
  const dot = document.createElementNS(SVG, "circle");
  for (const [name, value] of Object.entries({ class: "place__mark", cx: left, cy: -front, r: 150 })) {
    dot.setAttribute(name, value);
  }
  drawing.append(dot);
}
