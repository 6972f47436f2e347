// A reply of POST /v1/hole-specs as a page: card at the machine and section first, what led there folded below.
import { copied, copies } from "./copies.js";
import { facts, list, make, table, text, words } from "./dom.js";
import { gauges, level, limits, printed, shares } from "./figures.js";
import { label, verdict } from "./labels.js";

export function show(place, reply, svg, body, comparison) {
  const { thread } = reply;
  const parts = [
    make("h2", { id: "result-title" }, [reply.id, thread.designation].filter(Boolean).join(" · ")),
    judged(reply),
    link(),
    make("div", { class: "answer" }, facts(card(reply), "card"), drawing(svg), decisions(reply)),
    next(),
    comparison,
    part("operations", "Operations", table("In this order", ["No.", "What to do"], reply.operations.map((one) => [text(one.sequence), one.text]))),
    part("limits", "Limits and gauges", limits(reply), gauges(reply)),
    part("cautions", "Cautions", reply.cautions.length ? list(reply.cautions.map((one) => one.text), "cautions") : make("p", { class: "meta" }, "None for this hole.")),
    folded("tools", "Drill, tap and depths", facts(main(reply))),
    choices(reply),
    ...blocks(reply),
    folded("shares", "Holes expected inside the limits", shares(reply.acceptance)),
    folded("assumed", "Assumed", list(reply.assumptions)),
    ...origin(reply),
    folded("again", "The same request, for a program", ...copies(body)),
    named(reply),
  ];
  place.replaceChildren(...parts.filter(Boolean));
  place.hidden = false;
}

function card({ headline }) {
  return Object.entries(headline).map(([name, said]) => [label(name), said]);
}

function judged({ verdict: found, review, thread }) {
  const link = review.length ? make("a", { href: "#decide" }, `${review.length} to decide`) : null;
  return make("p", { class: `verdict ${found}` }, make("strong", {}, verdict(found)), ...(link ? [": ", link] : []),
    make("span", { class: "meta" }, ` ${thread.standard.document}`));
}

function decisions({ review }) {
  if (!review.length) return null;
  return make("div", { id: "decide" }, make("h3", {}, "To decide"), list(review.map((one) => one.text), "cautions"));
}

/** The section without its notes, which stand beside it here; its size on paper stays true. */
function drawing(svg) {
  if (!svg) return null;
  const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  const high = parsed.dataset.sectionHeight;
  parsed.querySelector('[data-part="notes"]').remove();
  parsed.setAttribute("viewBox", `0 0 ${parsed.getAttribute("width").replace("mm", "")} ${high}`);
  parsed.setAttribute("height", `${high}mm`);
  return make("figure", { id: "section" }, document.importNode(parsed, true));
}

/** On paper only: the code that opens this hole again. */
function link() {
  return make("p", { id: "link", class: "on-paper" }, make("img", { src: `/link.svg?${new URLSearchParams({ address: location.href })}`, alt: "QR code of the link to this hole" }));
}

function next() {
  const print = make("button", { type: "button" }, "Print the machine sheet");
  const link = make("button", { type: "button" }, "Copy the link");
  const said = make("span", { role: "status" });
  print.addEventListener("click", () => window.print());
  link.addEventListener("click", () => copied(location.href, said));
  return make("div", { class: "next" }, print, link, said);
}

function part(id, title, ...inside) {
  return make("div", { id }, make("h3", {}, title), ...inside);
}

function folded(id, title, ...inside) {
  return inside.some(Boolean) ? make("details", { id }, make("summary", {}, title), ...inside) : null;
}

function main(reply) {
  const { drill, tap, depths, units } = reply;
  const best = tap?.recommended;
  const length = (value) => (value === null || value === undefined ? null : `${value} ${units.length}`);
  return [
    ["Drill", drill ? drillWords(drill.recommended, units) : reply.headline.drill],
    ["Ream to", drill && length(printed(drill.ream_diameter, units))],
    ["Tap", best ? tapWords(best) : reply.headline.tap],
    ["Second tap", best?.second_tap && tapWords(best.second_tap)],
    ["Tap made to order", best?.order_text],
    ["Same limit by other names", best?.equivalents.map((one) => one.label).join(", ") || null],
    ["Full thread depth", length(depths.full_thread_depth)],
    ["Drill depth, full diameter", length(depths.drill_depth)],
    ["Drill depth, tip", length(depths.drill_tip_depth)],
    ["Tap goes down to", length(depths.tap_travel)],
    ["Countersink", `${length(depths.countersink_diameter)}, ${depths.countersink_angle}°`],
    [depths.counterbore_depth === undefined ? "Spotface" : "Counterbore", counterbore(depths, length)],
    ["Drill goes past the far face", length(depths.breakthrough)],
    ["Wall left under the tip", length(depths.wall_left)],
    ["Material", reply.material?.name],
    ["Finish", reply.finish && [reply.finish.finish.specification, reply.finish.finish.class].filter(Boolean).join(" ")],
  ];
}

function counterbore({ counterbore_diameter: wide, counterbore_depth: deep }, length) {
  if (wide === undefined) return null;
  return deep === undefined ? `${length(wide)}, until the face is clean` : `${length(wide)}, ${length(deep)} deep`;
}

function drillWords(chosen, units) {
  const percent = chosen.percent_thread === null ? "" : `, ${chosen.percent_thread} % thread`;
  const size = chosen.label === `${chosen.diameter} ${units.length}` ? "" : ` (${printed(chosen.diameter, units)} ${units.length})`;
  return `${chosen.label}${size}${percent}`;
}

function tapWords(tap) {
  const limit = tap.limit ? `, limit ${tap.limit.label}` : "";
  const { name, threads } = tap.chamfer;
  const chamfer = name === "taper_pipe" ? `chamfer of ${threads.min} to ${threads.max} threads` : `${words(name)} chamfer`;
  return `${words(tap.style)}, ${chamfer}${limit}; marked ${tap.marking}`;
}

function blocks(reply) {
  const titles = { cutting_data: "Speeds, feeds and torque", reach: "Reach of the tools", strength: "Strength of the thread", gauging: "Gauging" };
  return Object.entries(titles).map(([name, title]) =>
    (reply[name] ? folded(name, title, make("div", { class: "columns" }, ...level(reply[name], reply.units))) : null));
}

/** Why this drill and this tap, and what else would do. */
function choices({ drill, tap, comparison, units }) {
  const drills = (drill?.alternatives ?? []).map((one) => [one.label, `${printed(one.diameter, units)} ${units.length}`, text(one.in_stock), list(one.reasons)]);
  const taps = (tap?.alternatives ?? []).map((one) => [tapWords(one), text(one.in_stock), list(one.reasons)]);
  return make("details", { id: "choices" }, make("summary", {}, "Why these tools, and what else would do"),
    ...(drill ? [make("h4", {}, `Drill ${drill.recommended.label}`), list(drill.recommended.reasons)] : []),
    ...(drills.length ? [table("Other drills", ["Drill", "Diameter", "In the crib", "Because"], drills)] : []),
    ...(tap ? [make("h4", {}, `Tap ${tap.recommended.marking}`), list(tap.recommended.reasons)] : []),
    ...(taps.length ? [table("Other taps", ["Tap", "In the crib", "Because"], taps)] : []),
    ...(comparison ? [make("h4", {}, "Chart drill against least torque"), ...level(comparison, units)] : []));
}

function origin(reply) {
  const steps = (reply.derivation ?? []).map((step) =>
    [label(step.quantity), step.formula, text(step.inputs), `${text(step.value)} ${step.unit}`, step.source]);
  const sources = reply.sources.map((one) =>
    [one.for, [one.document, one.edition, one.locator].filter(Boolean).join(", "), words(one.status)]);
  return [
    folded("derivation", "How the figures were worked out", table("Every figure, redone on paper", ["Quantity", "Formula", "With", "Value", "Source"], steps)),
    folded("sources", "Sources", table("Where the figures come from", ["For", "Document", "How it is known"], sources)),
  ];
}

function named({ spec_id: id, tables_version: tables, notice, units }) {
  return make("div", { id: "named" }, make("p", { class: "meta" }, notice),
    make("p", { class: "meta" }, `Specification ${id}, tables ${tables}. Lengths in ${units.length === "in" ? "inches" : "millimetres"}.`),
    make("p", { class: "meta on-paper" }, location.href));
}
