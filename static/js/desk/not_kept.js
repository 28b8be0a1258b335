// Choices are kept as they are typed; where that does not come about, the page says so until it does.

const WORDS = { 0: "unreachable", 401: "refused", 403: "refused", 404: "gone", 410: "gone" };

const line = document.querySelector("#not-kept");

function say({ detail }) {
  const status = detail.xhr?.status ?? 0;
  line.textContent = line.dataset[WORDS[status] ?? "failed"];
  line.hidden = false;
}

document.body.addEventListener("htmx:sendError", say);
document.body.addEventListener("htmx:responseError", say);
document.body.addEventListener("htmx:afterOnLoad", ({ detail }) => {
  if (detail.xhr.status < 400 || detail.xhr.status === 422) line.hidden = true;
});
