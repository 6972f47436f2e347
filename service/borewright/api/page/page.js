// The page of one hole: reads the form, asks the service, shows the answer or the fault at its field.
import { fill, written } from "./address.js";
import { explained } from "./asking.js";
import { comparison, kept } from "./compare.js";
import { make, text } from "./dom.js";
import { show } from "./result.js";

const form = document.getElementById("ask");
const status = document.getElementById("status");
const refused = document.getElementById("refused");
const result = document.getElementById("result");
const folded = document.getElementById("asking");
const wide = matchMedia("(min-width: 64rem)");
const UNTITLED = document.title;
const fields = [...form.querySelectorAll("[data-pointer]")];
let asked = 0;

/** A bare number goes out as a number; everything else as it was typed, for the service to judge. */
function quantity(typed) {
  return /^[0-9]{1,9}(\.[0-9]{1,12})?$/.test(typed) ? Number(typed) : typed;
}

/** What is written with commas between, one by one. */
function several(typed) {
  return typed.split(",").map((one) => one.trim()).filter(Boolean);
}

/** A part of the request, left out where none of its fields is filled. */
function part(name, fields) {
  return Object.keys(fields).length ? { [name]: fields } : {};
}

/** How much larger than their drill the holes are: the mean alone, or with its standard deviation. */
function oversize(given) {
  if ("standard_deviation" in given) return { drill_oversize: given };
  return "mean" in given ? { drill_oversize: given.mean } : {};
}

function request(form) {
  const typed = Object.fromEntries([...new FormData(form)].map(([name, value]) => [name, value.trim()]));
  const given = (names, read = quantity) => named(Object.fromEntries(names.map((name) => [name, name])), read);
  const named = (names, read) => Object.fromEntries(
    Object.entries(names).filter(([, field]) => typed[field]).map(([name, field]) => [name, read(typed[field])]));
  return {
    ...given(["id"], String), thread: typed.thread,
    hole: {
      type: typed.type,
      ...given(["full_thread_depth", "thickness", "drill_depth_limit", "point_angle", "access_depth", "clearance_diameter", "drill_depth", "least_drill_depth"]),
      ...given(["drill"], String),
      ...part("counterbore", named({ diameter: "counterbore_diameter", depth: "counterbore_depth" }, quantity)),
      ...part("countersink", {
        ...named({ diameter: "countersink_diameter", angle: "countersink_angle" }, quantity), ...named({ sides: "countersink_sides" }, String),
      }),
    },
    ...given(["material", "finish", "method", "objective", "edition", "tap_limits", "unit_system"], String), ...given(["percent_thread"]),
    ...part("mating_screw", named({ class: "screw_class", grade: "screw_grade" }, String)),
    ...part("stock", named({ drills: "stock_drills", taps: "stock_taps" }, several)),
    ...part("machine", {
      ...given(["max_spindle_speed", "max_torque", "max_power"]), ...given(["tapping"], String),
      ...oversize(named({ mean: "oversize_mean", standard_deviation: "oversize_deviation" }, quantity)),
    }),
  };
}

function ask(body, accept, query) {
  return fetch(`/v1/hole-specs${query}`, {
    method: "POST", headers: { "Content-Type": "application/json", Accept: accept }, body: JSON.stringify(body),
  });
}

function submit(event) {
  event.preventDefault();
  go(kept());
}

/** Ask for the hole of the form, with others kept beside it, under an address of its own. */
function go(beside) {
  const query = written(form);
  for (const other of beside) query.append("beside", other);
  if (`?${query}` !== location.search) history.pushState(null, "", `?${query}`);
  return answer();
}

async function compared(other) {
  return (await ask(request(other), "application/json", "")).json();
}

async function answer() {
  const turn = ++asked;
  clear();
  status.textContent = "Working …";
  const body = request(form);
  try {
    const answers = [ask(body, "application/json", "?explain=true"), ask(body, "image/svg+xml", "")];
    const [found, drawing] = await Promise.all(answers);
    const reply = await found.json();
    const svg = drawing.ok ? await drawing.text() : null;
    if (turn !== asked) return;
    if (!found.ok) return refuse(reply);
    show(result, reply, svg, body, comparison(form, reply, compared, go));
    shown([reply.id, reply.thread.designation].filter(Boolean).join(" · "), reply.thread.designation);
  } catch {
    if (turn === asked) refuse({ title: "The service did not answer", detail: "Is it running? Try again.", errors: [] });
  }
}

/** On a narrow screen the form folds, so that the answer stands at the top; its summary says what was asked. */
function shown(title, thread) {
  document.title = `${title} – Borewright`;
  status.textContent = `${thread} is specified.`;
  document.body.classList.add("answered");
  document.getElementById("asked").textContent = ["Change:", form.elements.thread.value, form.elements.type.value,
    form.elements.full_thread_depth.value || form.elements.thickness.value, form.elements.material.value, form.elements.finish.value].filter(Boolean).join(" ");
  folded.open = wide.matches;
  result.focus({ preventScroll: true });
  scrollTo(0, 0);
}

function clear() {
  refused.hidden = true;
  refused.replaceChildren();
  result.hidden = true;
  for (const field of fields) {
    field.removeAttribute("aria-invalid");
    document.getElementById(`${field.id}-fault`)?.replaceChildren();
  }
}

/** The field for a pointer: the longest pointer of a field that the fault's pointer begins with. */
function fieldOf(pointer) {
  return fields.filter(({ dataset }) => pointer === dataset.pointer || pointer.startsWith(`${dataset.pointer}/`))
    .sort((one, other) => other.dataset.pointer.length - one.dataset.pointer.length)[0];
}

function refuse(problem) {
  status.textContent = "";
  folded.open = true;
  document.body.classList.remove("answered");
  const elsewhere = [];
  let first = null;
  for (const fault of problem.errors ?? []) {
    const field = fieldOf(fault.pointer);
    const place = field && document.getElementById(`${field.id}-fault`);
    if (!place) { elsewhere.push(fault); continue; }
    field.setAttribute("aria-invalid", "true");
    for (let closed = field.closest("details"); closed; closed = closed.parentElement.closest("details")) closed.open = true;
    place.append(fault.detail, ...advice(fault, field));
    first ??= field;
  }
  refused.append(make("p", {}, make("strong", {}, problem.title)));
  if (!first && !elsewhere.length) refused.append(make("p", {}, problem.detail ?? ""));
  refused.append(...[...elsewhere.map((fault) => make("p", {}, `${fault.pointer} ${fault.detail}`)), explained(problem)].filter(Boolean));
  refused.hidden = false;
  (first ?? refused).focus();
}

function advice(fault, field) {
  if (!fault.did_you_mean?.length) return fault.allowed?.length ? [` Allowed: ${text(fault.allowed)}.`] : [];
  return [" Did you mean ", ...fault.did_you_mean.map((meant) => {
    const button = make("button", { type: "button", class: "quiet" }, meant);
    button.addEventListener("click", () => { field.value = meant; form.requestSubmit(); });
    return button;
  })];
}

/** Which of the two lengths is optional depends on the kind of hole. */
function kind() {
  const through = form.elements.type.value === "through";
  form.querySelector('[data-for="thickness"]').hidden = through;
}

async function suggest(catalogue, place, name) {
  const answer = await fetch(`/v1/catalog/${catalogue}`);
  if (!answer.ok) return;
  const names = new Set((await answer.json()).items.map(name));
  document.getElementById(place).append(...[...names].map((value) => make("option", { value })));
}

/** A hole that the address names is asked for at once: a link, a bookmark, a page gone back to. */
function opened() {
  const query = new URLSearchParams(location.search);
  const unknown = fill(form, query);
  kind();
  if (unknown.length) refuse({ title: "The link says what this page does not know", detail: `Not read: ${unknown.join(", ")}. Nothing was asked; the form shows the rest.`, errors: [] });
  else if (query.get("thread")) answer();
  else unanswered();
}

function unanswered() {
  asked += 1;
  clear();
  document.title = UNTITLED;
  status.textContent = "";
  document.body.classList.remove("answered");
}

form.addEventListener("submit", submit);
form.addEventListener("change", kind);
addEventListener("popstate", opened);
wide.addEventListener("change", () => { if (wide.matches) folded.open = true; });
opened();
suggest("materials", "materials", (row) => row.name).catch(() => {});
suggest("finishes", "finishes", (row) => [row.specification, row.finish_class].filter(Boolean).join(" ")).catch(() => {});
