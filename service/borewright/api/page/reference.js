// A way to try an operation of the API: what stands in the form is sent, what comes back is shown.
import { make } from "./dom.js";

const [form, example, sent, file, body, accept, status, result] =
  ["try", "example", "sent", "file", "body", "accept", "status", "result"].map((id) => document.getElementById(id));
const JSON_TYPE = "application/json";

function address() {
  const query = new URLSearchParams();
  let path = form.dataset.path;
  for (const field of form.querySelectorAll("[data-place]")) {
    if (field.dataset.place === "path") path = path.replace(`{${field.name}}`, encodeURIComponent(field.value));
    else if (field.value) query.set(field.name, field.value);
  }
  return query.size ? `${path}?${query}` : path;
}

function request() {
  const headers = accept ? { Accept: accept.value } : {};
  if (!body) return { headers };
  return { method: form.dataset.method, headers: { ...headers, "Content-Type": sent?.value ?? JSON_TYPE }, body: file?.files[0] ?? body.value };
}

/** The same call for a terminal; a file by its name. */
function curl(url, { method, headers, body: content }) {
  const quoted = (words) => `'${words.replaceAll("'", "'\\''")}'`;
  const given = content instanceof File ? `@${content.name}` : content;
  return [`curl ${quoted(location.origin + url)}`,
    ...(method && method !== "POST" ? [`-X ${method}`] : []),
    ...Object.entries(headers).map((pair) => `-H ${quoted(pair.join(": "))}`),
    ...(content === undefined ? [] : [`--data-binary ${quoted(given)}`])].join(" \\\n  ");
}

function text(words, name) {
  return make("pre", { tabindex: "0", role: "region", "aria-label": name }, words);
}

/** The answer as its media type allows: JSON and text as text, pictures as such, all else to be kept. */
async function shown(answer) {
  const type = answer.headers.get("Content-Type") ?? "";
  if (type.startsWith("image/svg") || type.startsWith("image/png")) return picture(await answer.blob());
  if (/json$/.test(type.split(";")[0])) return text(JSON.stringify(await answer.json(), null, 2), "Answer");
  if (/^text|xml|ndjson/.test(type) && !type.includes("openxml")) return text(await answer.text(), "Answer");
  const kept = URL.createObjectURL(await answer.blob());
  return make("p", {}, make("a", { href: kept, download: "answer" }, `Save the answer (${type})`));
}

function picture(blob) {
  const image = make("img", { alt: "The answer, drawn" });
  const reader = new FileReader();
  reader.addEventListener("load", () => { image.src = reader.result; });
  reader.readAsDataURL(blob);
  return image;
}

async function send(event) {
  event.preventDefault();
  const [url, asked, began] = [address(), request(), performance.now()];
  status.textContent = "Working …";
  result.hidden = true;
  try {
    const answer = await fetch(url, asked);
    const content = await shown(answer);
    const told = `${answer.status} ${answer.statusText}`.trim();
    result.replaceChildren(make("p", {}, make("strong", {}, told), ` in ${Math.round(performance.now() - began)} ms`), content,
      make("details", {}, make("summary", {}, "The same with curl"), text(curl(url, asked), "Command")));
    status.textContent = told;
    result.hidden = false;
    result.focus();
  } catch {
    status.textContent = "The service did not answer. Is it running? Try again.";
  }
}

function take() {
  const chosen = document.getElementById(example.value);
  body.value = chosen.content.textContent;
  if (sent) sent.value = chosen.dataset.type;
}

form.addEventListener("submit", send);
example?.addEventListener("change", take);
