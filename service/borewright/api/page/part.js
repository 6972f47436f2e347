// The page of a part: sends its holes, shows the plan with what it proves, its pictures and what the setter lays out.
import { asking, counted, meant } from "./asking.js";
import { facts, list, make, table, text, words } from "./dom.js";
import { byHole, timeBar, told } from "./part-pictures.js";
import { EXAMPLE } from "./part-example.js";

const form = document.getElementById("ask");
const file = document.getElementById("file");
const result = document.getElementById("result");
const VERDICTS = { ready: "Ready", review: "To be decided", infeasible: "Not all holes can be planned" };
const TYPES = { xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", json: "application/json", ndjson: "application/x-ndjson" };

/** What is sent, and as what: the file as it is, or the text by how it begins. */
async function given() {
  const chosen = file.files[0];
  const typed = chosen ? "" : form.elements.holes.value.trim();
  const type = chosen ? TYPES[chosen.name.split(".").at(-1).toLowerCase()] ?? "text/csv" : typeOf(typed);
  const body = chosen && type === TYPES.json ? (await chosen.text()).trim() : chosen ?? typed;
  return { type, body: type === TYPES.json && body.startsWith("[") ? `{"holes":${body}}` : body };
}

function typeOf(typed) {
  if (typed.startsWith("[")) return TYPES.json;
  if (!typed.startsWith("{")) return "text/csv";
  const isHoleALine = !typed.includes('"holes"') && typed.split("\n").every((line) => /^\s*(\{.*\}\s*)?$/.test(line));
  return isHoleALine ? TYPES.ndjson : TYPES.json;
}

async function send() {
  const said = [...new FormData(form)].map(([name, value]) => [name, typeof value === "string" ? value.trim() : ""]);
  const query = new URLSearchParams([["detail", "routing"], ...said.filter(([name, value]) => name !== "holes" && value)]);
  const { type, body } = await given();
  return fetch(`/v1/part-plans?${query}`, { method: "POST", headers: { "Content-Type": type, Accept: "application/json" }, body });
}

function tell(fault) {
  const field = fault.pointer?.split("/").findLast((name) => name !== "length" && form.elements[name]?.name === name);
  form.elements[field]?.setAttribute?.("aria-invalid", "true");
  return meant(fault);
}

function show(reply) {
  result.replaceChildren(...[
    make("h2", {}, [reply.part, saved(reply)].filter(Boolean).join(": ")),
    make("p", { class: `verdict ${reply.verdict}` }, VERDICTS[reply.verdict]),
    ...toDecide(reply),
    ...(reply.holes.length ? plan(reply) : []),
    ...titled("Cautions", cautions(reply), "cautions"),
    ...titled("Assumptions", reply.assumptions),
    make("p", { class: "meta" }, reply.notice),
    make("p", { class: "meta" }, `Tables ${reply.tables_version}, rules ${reply.rules_version}`),
  ]);
  result.hidden = false;
  return `${reply.tools.length} tools for ${counted(reply.holes, "hole")}.`;
}

function plan(reply) {
  return [
    proof(reply),
    ...byHole(reply),
    ...moved(reply),
    make("h3", {}, "Order"), ...order(reply),
    ...titled("Away from the spindle", away(reply)),
    make("h3", {}, "Where the time goes"), timeBar(reply),
    make("h3", {}, "Holes"), table("Holes", ["Hole", "Drill", "Depth", "Gauge", "Verdict"],
      reply.holes.map((one) => [one.id, ...["drill", "depth", "gauge"].map((name) => one.headline[name] ?? "–"), one.verdict])),
    ...titled("Not in stock, or made to order", lacking(reply)),
    ...titled("Gauges", reply.kit.gauges),
    ...titled("Fluids", reply.kit.fluids),
    ...titled("Beside them", reply.kit.other),
  ];
}

function saved({ saved: { tools, from, to } }) {
  return tools > 0 ? `${to} tools in place of ${from}` : `${to} ${to === 1 ? "tool" : "tools"}`;
}

function toDecide(reply) {
  const review = reply.review.map((one) => `${one.hole}: ${one.text}`);
  const left = reply.refused.flatMap((hole) => hole.errors.map((fault) => `${hole.hole}: ${meant(fault)}`));
  return [...titled("To be decided", review, "cautions"), ...titled("Not planned", left, "cautions")];
}

function proof({ saved: counted, proof: proved, time }) {
  const choice = proved.optimal ? "proved: no choice of tools is better for what was asked"
    : proved.proved.includes("tools") ? "proved: no choice has fewer; which of as many is best was not settled in time"
    : `the best found in time; no choice has fewer than ${proved.bound}`;
  const sequence = proved.order_optimal ? "proved: no order has fewer" : "no fewer were found in time";
  return facts([
    ["Each hole by itself", `${counted.from} tools`],
    ["The part as a whole", `${counted.to} tools, ${choice}`],
    ["Tool changes", `${time.loadings}, ${sequence}`],
    ["One part", told(time.total)],
    ["The lot", time.per_lot === time.total ? null : told(time.per_lot)],
  ]);
}

function moved({ changes, units }) {
  if (!changes.length) return [];
  const cost = (value) => (value === null ? "not known" : `${value > 0 ? "+" : value < 0 ? "−" : ""}${Math.abs(value)}`);
  return [make("h3", {}, "Holes made with other tools than by themselves"), table("What it costs them",
    ["Hole", "By itself", "In the plan", "Why", "Thread, % points", "Chance that it is good, % points", `Tapping torque, ${units.torque}`],
    alike(changes).map(([one, holes]) => [holes.join(", "), text(one.from), text(one.to), one.why, cost(one.cost.percent_thread),
      cost(one.cost.acceptance && Number((100 * one.cost.acceptance).toFixed(2))), cost(one.cost.torque)]))];
}

/** Changes from and to the same tools at the same cost are one, with all their holes. */
function alike(changes) {
  const found = new Map();
  for (const one of changes) {
    const same = JSON.stringify([one.from, one.to, one.cost]);
    if (!found.has(same)) found.set(same, [one, []]);
    found.get(same)[1].push(one.hole);
  }
  return [...found.values()];
}

/** A table for each set-up. */
function order({ sequence, units, holes }) {
  const served = (step) => (holes.length > 1 && step.holes.length === holes.length ? "all" : step.holes.join(", "));
  const stages = [...new Set(sequence.map((step) => step.stage))];
  return stages.flatMap((stage) => [stages.length > 1 ? make("h4", {}, `Set-up ${stage}`) : "", table(`Order of set-up ${stage}`,
    ["Step", "Operation", "Tool", "Holes", "Number", "Speed, rev/min", `Feed, ${units.feed}`, "Time"],
    sequence.filter((step) => step.stage === stage).map((step) => [String(step.step), words(step.operation), step.tool,
      served(step), String(step.count), step.spindle_speeds.join(", ") || "–", text(step.feed), step.time === null ? "–" : told(step.time)]))]);
}

/** Inspection, finish and what else is done between the set-ups and after them; inspection alone is told by the gauges. */
function away({ away_from_spindle: steps, holes }) {
  if (steps.every((one) => one.operation === "inspect")) return [];
  const several = new Set(steps.map((one) => one.after_stage)).size > 1;
  const served = (one) => (one.holes.length === holes.length ? "all" : one.holes.join(", "));
  return steps.map((one) => `${several ? `After set-up ${one.after_stage}: ` : ""}${one.text} (${served(one)})`);
}

/** Each caution with the holes that it is for. */
function cautions({ cautions: every, holes }) {
  return every.map(({ text: said }) => {
    const named = holes.filter((hole) => hole.cautions.some((one) => one.text === said)).map((hole) => hole.id);
    return named.length && named.length < holes.length ? `${said} (${named.join(", ")})` : said;
  });
}

function lacking({ tools }) {
  return tools.filter((one) => one.in_stock === false || one.availability === "special")
    .map((one) => `${one.tool}: ${[one.in_stock === false ? "not in stock" : "", one.availability === "special" ? "made to order" : ""].filter(Boolean).join(", ")}, for ${one.holes.join(", ")}`);
}

function titled(title, items, kind) {
  return items.length ? [make("h3", {}, title), list(items, kind)] : [];
}

document.getElementById("example").addEventListener("click", () => {
  file.value = "";
  for (const [name, value] of Object.entries(EXAMPLE)) form.elements[name].value = value;
  form.requestSubmit();
});
form.elements.holes.addEventListener("input", () => { file.value = ""; });
asking(form, { send, show, tell });
