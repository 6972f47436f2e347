// The page of holes that went wrong: sends what was found, shows the ways with their figures and those that are none.
import { asking, counted, meant } from "./asking.js";
import { facts, list, make, text, words } from "./dom.js";

const form = document.getElementById("ask");
const result = document.getElementById("result");
const DISPOSITIONS = { use_as_is: "Use as is", rework: "Rework", repair: "Repair", scrap: "Scrap" };
// Figures whose names say too little.
const LABELS = { envelope: "the old thread reaches", cleans_up: "cut away by the new thread", radial_clean_up: "the drill may run off by",
  short_by: "too small by", over_by: "too large by", safety_factor: "strip force over the screw's", percent_left: "percent of thread that stands" };
const CLEANS = { full_any_hole: "yes, by any hole inside the limits", full_upper_hole: "yes, by a hole as large as the old thread", partial: "in part" };
// Figures of a proof that are no lengths.
const PLAIN = /percent|ratio|factor|threads|chamfer/;

/** A bare number as a number, anything else as text for the service to read. */
const figure = (typed) => (/^\d*\.?\d+$/.test(typed) ? Number(typed) : typed);

function fields() {
  const shown = [...new FormData(form)].filter(([name]) => !form.elements[name].closest?.("[hidden]"));
  return Object.fromEntries(shown.map(([name, value]) => [name, value.trim()]).filter(([, value]) => value));
}

function request() {
  const typed = fields();
  const take = (names) => Object.fromEntries(names.filter((name) => typed[name]).map((name) => [name, figure(typed[name])]));
  const measured = take(["hole_diameter", "pitch_diameter", "major_diameter", "full_thread_depth", "drill_depth"]);
  const tap = {
    ...(typed.tap_material ? { material: typed.tap_material } : {}),
    ...(typed.stands_proud ? { stands_proud: typed.stands_proud === "yes" } : {}),
  };
  const filled = (name, object) => (Object.keys(object).length ? { [name]: object } : {});
  return {
    thread: form.elements.thread.value,
    hole: {
      type: typed.type,
      ...(typed.type === "blind" && typed.depth ? { full_thread_depth: figure(typed.depth) } : {}),
      ...take(["thickness"]),
    },
    ...(typed.material ? { material: typed.material } : {}),
    ...(typed.finish ? { finish: typed.finish } : {}),
    ...(typed.grade ? { mating_screw: { grade: typed.grade } } : {}),
    ...(typed.unit_system ? { unit_system: typed.unit_system } : {}),
    found: {
      condition: typed.condition,
      ...(typed.stage ? { stage: typed.stage } : {}),
      ...(typed.wrong_thread ? { wrong_thread: typed.wrong_thread } : {}),
      ...take(["edge_distance"]),
      ...(typed.criticality ? { criticality: typed.criticality } : {}),
      ...filled("measured", measured),
      ...filled("broken_tap", tap),
    },
  };
}

function send() {
  return fetch("/v1/rework", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(request()) });
}

function tell(fault) {
  const name = fault.pointer?.split("/").at(-1);
  const field = form.elements[name === "full_thread_depth" && !fault.pointer.startsWith("/found") ? "depth" : name];
  field?.setAttribute?.("aria-invalid", "true");
  return meant(fault, words);
}

function show(reply) {
  result.replaceChildren(...[
    make("h2", {}, `${reply.thread}: ${words(reply.condition)}`),
    make("p", { class: "meta" }, reply.stage === "after_finish" ? "judged by the finished limits" : "judged by the limits before any finish"),
    ...reply.ways.map((one) => way(one, reply.units)),
    ...titled("No ways here", reply.ruled_out.map((one) => `${words(one.way)}: ${one.why}`)),
    ...titled("Assumptions", reply.assumptions),
    make("p", { class: "meta" }, reply.notice),
  ].filter(Boolean));
  result.hidden = false;
  return `${counted(reply.ways, "way")}.`;
}

function way(one, units) {
  const kind = `${DISPOSITIONS[one.disposition]}${one.regrade ? ", another class" : ""}`;
  const leave = one.needs_authority ? make("span", { class: "leave" }, "Needs leave: ") : "Decided by ";
  return make("article", { class: "way" },
    make("h3", {}, `${kind}: ${words(one.way)}${one.thread ? `, ${one.thread}` : ""}`),
    make("p", { class: "said" }, `${one.text}.`),
    make("p", { class: "who" }, leave, one.authority),
    one.cautions.length ? list(one.cautions.map((caution) => caution.text), "cautions") : null,
    folded("Figures", facts(Object.entries(one.proof).map(([name, value]) => [LABELS[name] ?? words(name), sized(name, CLEANS[value] ?? value, units)]))),
    folded("Operations", make("ol", {}, ...one.operations.map((line) => make("li", {}, line.text)))),
    one.request ? opened(one.request) : null);
}

function sized(name, value, units) {
  const isLength = (typeof value === "number" && !PLAIN.test(name)) || (value !== null && typeof value === "object" && !Array.isArray(value));
  return isLength ? `${text(value)} ${units.length}` : text(typeof value === "string" ? words(value) : value);
}

function folded(title, content) {
  return content.children.length ? make("details", {}, make("summary", {}, title), content) : null;
}

/** A link to the page of one hole: full specification, gauges, drawing. */
function opened(request) {
  const { hole: asks } = request;
  const given = { thread: request.thread, type: asks.type, depth: asks.full_thread_depth, thickness: asks.thickness,
    material: request.material, finish: request.finish, units: request.unit_system };
  const said = Object.entries(given).filter(([, value]) => typeof value === "string" || typeof value === "number");
  return make("p", {}, make("a", { href: `/?${new URLSearchParams(said.map(([name, value]) => [name, String(value)]))}` }, "Open the hole of this way"));
}

function titled(title, items) {
  return items.length ? [make("h3", {}, title), list(items)] : [];
}

/** Only the fields that bear on what is wrong; the finish asks for the stage. */
function fit() {
  const condition = form.elements.condition.value;
  for (const field of form.querySelectorAll("[data-for]")) field.hidden = !field.dataset.for.split(" ").includes(condition);
  document.getElementById("stage-field").hidden = !form.elements.finish.value.trim();
}

asking(form, { send, show, tell });
form.addEventListener("input", fit);
fit();
