// A reply of POST /v1/hole-specs as a page: what the machine needs first, how it was found last.
import { facts, list, make, table, text, words } from "./dom.js";

const DIAMETERS = ["major_diameter", "pitch_diameter", "minor_diameter"];
const BLOCKS = {
  reach: "Reach of the tools", cutting_data: "Cutting data", strength: "Strength", gauging: "Gauging",
};

export function show(place, reply, svg, body) {
  const { thread, units } = reply;
  place.replaceChildren(
    make("h2", { id: "result-title" }, [reply.id, thread.designation].filter(Boolean).join(" · ")),
    make("p", { class: "meta" }, `${thread.standard.document}. Lengths in ${units.length === "in" ? "inches" : "millimetres"}. Specification ${reply.spec_id}, tables ${reply.tables_version}.`),
    make("p", { class: `verdict ${reply.verdict}` }, make("strong", {}, `Verdict: ${reply.verdict}`)),
    ...(reply.review.length ? [heading("To decide"), list(reply.review.map((one) => one.text), "cautions")] : []),
    heading("At the machine"), facts(Object.entries(reply.headline).map(([name, said]) => [words(name), said])),
    heading("Cautions"), list(reply.cautions.map((caution) => caution.text), "cautions"),
    ...drawing(svg),
    heading("Drill, tap and depths"), facts(main(reply)),
    heading("Operations"),
    table("In this order", ["No.", "What to do"], reply.operations.map((one) => [text(one.sequence), one.text])),
    heading("Limits of size"), limits(reply),
    ...Object.entries(BLOCKS).flatMap(([name, title]) => block(title, reply[name], units)),
    ...shares(reply.acceptance),
    heading("Assumed"), list(reply.assumptions),
    make("p", { class: "meta" }, reply.notice),
    ...screen(reply, body),
  );
  place.hidden = false;
}

function heading(title) {
  return make("h3", {}, title);
}

function drawing(svg) {
  if (!svg) return [];
  const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  return [heading("Section"), make("figure", { id: "section", tabindex: "0", role: "group", "aria-label": "Section drawing" }, document.importNode(parsed, true))];
}

function main(reply) {
  const { drill, tap, depths, units } = reply;
  const best = tap?.recommended;
  const length = (value) => (value === null || value === undefined ? null : `${value} ${units.length}`);
  return [
    ["Drill", drill ? drillWords(drill.recommended, length) : reply.headline.drill],
    ["Ream to", length(drill?.ream_diameter)],
    ["Tap", best ? tapWords(best) : reply.headline.tap],
    ["Second tap", best?.second_tap && tapWords(best.second_tap)],
    ["Tap made to order", best?.order_text],
    ["Equivalent tap limits", best?.equivalents.map(({ label }) => label).join(", ") || null],
    ["Full thread depth", length(depths.full_thread_depth)],
    ["Drill depth, full diameter", length(depths.drill_depth)],
    ["Drill depth, tip", length(depths.drill_tip_depth)],
    ["Tap travel", length(depths.tap_travel)],
    ["Countersink", `${length(depths.countersink_diameter)}, ${depths.countersink_angle}°`],
    ["Beyond the far face", length(depths.breakthrough)],
    ["Wall left under the tip", length(depths.wall_left)],
    ["Material", reply.material?.name],
    ["Finish", reply.finish && [reply.finish.finish.specification, reply.finish.finish.class].filter(Boolean).join(" ")],
  ];
}

function drillWords(chosen, length) {
  const percent = chosen.percent_thread === null ? "" : `, ${chosen.percent_thread} % thread`;
  return `${chosen.label}${chosen.label === length(chosen.diameter) ? "" : ` (${length(chosen.diameter)})`}${percent}`;
}

function tapWords(tap) {
  const limit = tap.limit ? `, limit ${tap.limit.label}` : "";
  const { name, threads } = tap.chamfer;
  const chamfer = name === "taper_pipe" ? `chamfer of ${threads.min} to ${threads.max} threads` : `${words(name)} chamfer`;
  return `${words(tap.style)}, ${chamfer}${limit}; marked ${tap.marking}`;
}

function limits(reply) {
  const { thread, units } = reply;
  const { to_tap: toTap, finished, gauge_now: now } = reply.limits;
  const same = JSON.stringify(toTap) === JSON.stringify(finished);
  const gauged = (name) => (now === name ? ", gauged after tapping" : "");
  const columns = same ? [["To tap and finished", toTap]]
    : [[`To tap${gauged("to_tap")}`, toTap], [`Finished part${gauged("finished")}`, finished]];
  if (thread.external) columns.push([`Mating thread ${thread.mating_class ?? ""}`, thread.external]);
  const places = units.length === "in" ? 4 : 3;
  const rows = DIAMETERS.map((name) => [words(name), ...columns.map(([, found]) => text(printed(found?.[name], places)))]);
  return table(`Limits in ${units.length === "in" ? "inches" : "millimetres"}`, ["Diameter", ...columns.map(([title]) => title)], rows);
}

/** A limit with the digits that tables print at least: JSON drops the zeros at the end. */
function printed(range, places) {
  const digits = (value) => (typeof value === "number" && value === Number(value.toFixed(places)) ? value.toFixed(places) : value);
  return range ? { min: digits(range.min), max: digits(range.max) } : range;
}

/** The expected share of holes inside the limits, before any is made. */
function shares(acceptance) {
  if (!acceptance) return [];
  const rows = Object.entries(acceptance).filter(([, value]) => value !== null)
    .map(([name, value]) => [words(name), typeof value === "number" ? `${Number((value * 100).toFixed(2))} %` : value]);
  return [heading("Holes expected inside the limits"), facts(rows)];
}

/** A part of the reply that has parts of its own: plain figures first, then each part under its name. */
function block(title, found, units) {
  if (!found) return [];
  return [heading(title), make("div", { class: "columns" }, ...level(found, units, []))];
}

function level(found, units, path) {
  const entries = Object.entries(found).filter(([, value]) => value !== null);
  const plain = entries.filter(([, value]) => !nested(value)).map(([name, value]) => named(name, value, units));
  const title = path.length ? make("h4", {}, path.map(words).join(", ")) : null;
  const own = plain.length ? [make("div", { class: "part" }, title, facts(plain))] : [];
  return [...own, ...entries.filter(([, value]) => nested(value)).flatMap(([name, value]) => level(value, units, [...path, name]))];
}

function nested(value) {
  return value !== null && typeof value === "object" && !Array.isArray(value) && !("min" in value) && !("low" in value);
}

function named(name, value, units) {
  if (Array.isArray(value)) return [words(name), list(value.map(text))];
  const unit = typeof value === "string" ? "" : unitOf(name, units);
  return [words(name), `${text(value)}${unit && ` ${unit}`}`];
}

/** The unit of a figure by its name; a figure that has none is a ratio or a count. */
function unitOf(name, units) {
  if (name === "spindle_speed") return "rev/min";
  if (name === "time") return "s";
  if (name.startsWith("cutting_speed")) return units.cutting_speed;
  if (name.endsWith("torque")) return units.torque;
  if (name === "thrust" || name.endsWith("force")) return units.force;
  if (/(?<!over_)diameter$|_depth$|_reach$|length|^wear_limit$|^go$|^not_go$|^first$|^next$/.test(name)) return units.length;
  return ["feed", "power", "stress"].includes(name) ? units[name] : "";
}

function screen(reply, body) {
  const steps = (reply.derivation ?? []).map((step) =>
    [step.quantity, step.formula, text(step.inputs), `${text(step.value)} ${step.unit}`, step.source]);
  const sources = reply.sources.map((one) =>
    [one.for, [one.document, one.edition, one.locator].filter(Boolean).join(", "), words(one.status)]);
  const inside = make("div", { class: "screen" }, ...choices(reply),
    make("details", { id: "derivation" }, make("summary", {}, "Derivation, step by step"),
      table("Every figure, redone on paper", ["Quantity", "Formula", "With", "Value", "Source"], steps)),
    make("details", {}, make("summary", {}, "Sources"), table("Where the figures come from", ["For", "Document", "Status"], sources)),
    heading("The same request"), ...copies(body), printing());
  return [inside];
}

/** Why this drill and this tap, and what else would do. */
function choices({ drill, tap, comparison, units }) {
  const drills = (drill?.alternatives ?? []).map((one) => [one.label, `${one.diameter} ${units.length}`, text(one.in_stock), list(one.reasons)]);
  const taps = (tap?.alternatives ?? []).map((one) => [tapWords(one), text(one.in_stock), list(one.reasons)]);
  return [make("details", { id: "choices" }, make("summary", {}, "Why these tools, and what else would do"),
    ...(drill ? [make("h4", {}, `Drill ${drill.recommended.label}`), list(drill.recommended.reasons)] : []),
    ...(drills.length ? [table("Other drills", ["Drill", "Diameter", "In the crib", "Because"], drills)] : []),
    ...(tap ? [make("h4", {}, `Tap ${tap.recommended.marking}`), list(tap.recommended.reasons)] : []),
    ...(taps.length ? [table("Other taps", ["Tap", "In the crib", "Because"], taps)] : []),
    ...(comparison ? [heading("Chart drill against least torque"), ...level(comparison, units, [])] : []))];
}

function printing() {
  const button = make("button", { type: "button" }, "Print the machine sheet");
  button.addEventListener("click", () => window.print());
  return make("p", {}, button);
}

function copies(body) {
  const forms = requests(body);
  const shown = make("pre", { id: "copy-text", tabindex: "0", role: "group", "aria-label": "Request to copy" });
  const pick = make("select", { id: "copy-form" }, ...Object.keys(forms).map((name) => make("option", {}, name)));
  const said = make("span", { role: "status" });
  const button = make("button", { type: "button" }, "Copy");
  const change = () => { shown.textContent = forms[pick.value]; said.textContent = ""; };
  pick.addEventListener("change", change);
  button.addEventListener("click", () => navigator.clipboard.writeText(shown.textContent)
    .then(() => { said.textContent = " Copied."; }, () => { said.textContent = " Select the text to copy it."; }));
  change();
  return [make("label", { for: "copy-form" }, "As"), pick, shown, make("p", {}, button, said)];
}

function requests(body) {
  const json = JSON.stringify(body, null, 2);
  const address = `${location.origin}/v1/hole-specs`;
  const quoted = JSON.stringify(body).replaceAll("'", "'\\''");
  return {
    curl: `curl ${address} \\\n  -H 'Content-Type: application/json' \\\n  -d '${quoted}'`,
    Python: `import requests\n\nspec = requests.post("${address}", json=${json}, timeout=10).json()\nprint(spec["drill"]["recommended"]["label"])`,
    JSON: json,
  };
}
