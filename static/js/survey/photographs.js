/** The photographs' page: straight from the camera onto the tablet, with words, a finding and a place. */

import { onNews } from "../tablet/outbox.js";
import { addPicture, picturesHere, tellWords } from "../tablet/pictures.js";

/** @param {HTMLFormElement} form @param {{survey: string, person: string, form: number}} about */
export async function takePhotographs(form, about) {
  const list = document.querySelector("#pictures");
  const shown = new Map();
  const input = form.elements.pictures;
  const busy = document.querySelector("#taking");
  const hazard = new URLSearchParams(location.search).get("of") ?? "";

  async function take() {
    const files = [...input.files];
    for (const [place, file] of files.entries()) {
      busy.textContent = `Making photograph ${place + 1} of ${files.length} ready…`;
      await addPicture(about, file, { shows: "", hazard, left_mm: null, front_mm: null });
    }
    input.value = "";
    busy.textContent = files.length ? `${files.length} kept on this tablet.` : "";
    await show();
  }

  async function show() {
    for (const picture of await picturesHere(about.survey)) {
      const key = picture.digest || picture.url;
      const tile = shown.get(key) ?? newTile(picture, about);
      if (!shown.has(key)) list.prepend(tile);
      shown.set(key, tile);
      tile.querySelector("[data-waits]").textContent = picture.waits ? "On this tablet" : "In the office";
      if (!tile.contains(document.activeElement)) fill(tile, picture);
    }
    document.querySelector("#no-pictures").hidden = shown.size > 0;
  }

  offerCamera(input);
  document.querySelector("#pictures-in-office")?.remove();
  for (const part of form.querySelectorAll("[data-without-scripts]")) part.hidden = true;
  onNews(show);
  input.addEventListener("change", take);
  if (input.files.length) await take(); // chosen by a quick hand before this ran
  else await show();
}

/** Two large buttons in the place of the browser's small one: the camera at once, or what was taken before. */
function offerCamera(input) {
  input.hidden = true;
  const buttons = document.querySelector("#take");
  buttons.hidden = false;
  buttons.addEventListener("click", (event) => {
    const { capture } = event.target.closest("button")?.dataset ?? {};
    if (capture === undefined) return;
    input.toggleAttribute("capture", capture !== "");
    if (capture) input.setAttribute("capture", capture);
    input.click();
  });
}

function newTile(picture, about) {
  const tile = document.querySelector("#picture").content.cloneNode(true).querySelector("li");
  const image = tile.querySelector("img");
  image.src = picture.bytes ? URL.createObjectURL(new Blob([picture.bytes], { type: "image/jpeg" })) : picture.url;
  const [shows, hazard] = [tile.querySelector("[name=shows]"), tile.querySelector("[name=hazard]")];
  hazard.append(document.querySelector("#hazard-titles").content.cloneNode(true));
  const words = { left_mm: picture.left_mm ?? null, front_mm: picture.front_mm ?? null };
  const tell = async () => {
    image.alt = shows.value || "Photograph";
    await tellWords(about, picture.digest, { shows: shows.value, hazard: hazard.value, ...words });
  };
  // Old photographs came without a digest of their own: the office alone can change their words.
  for (const box of tile.querySelectorAll("input, select, button")) box.disabled = !picture.digest;
  shows.addEventListener("change", tell);
  hazard.addEventListener("change", tell);
  tile.querySelector("[data-place]").addEventListener("click", async () => {
    const { choosePlace } = await import("./place_on_plan.js");
    const chosen = await choosePlace(about.survey, words);
    if (!chosen) return;
    Object.assign(words, chosen);
    await tell();
    sayPlace(tile, words);
  });
  return tile;
}

function fill(tile, picture) {
  tile.querySelector("img").alt = picture.shows || "Photograph";
  tile.querySelector("[name=shows]").value = picture.shows ?? "";
  tile.querySelector("[name=hazard]").value = picture.hazard ?? "";
  sayPlace(tile, picture);
}

function sayPlace(tile, { left_mm, front_mm }) {
  const placed = Number.isInteger(left_mm) && Number.isInteger(front_mm);
  tile.querySelector("[data-placed]").textContent =
    placed ? `${left_mm} mm from left gable, ${front_mm} mm from front eaves` : "";
}
