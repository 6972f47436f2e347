// The pictures of a plan: which tool serves which hole, and where the time goes.
import { make, svg, words } from "./dom.js";

/** Holes side by side in one picture: as many as a sheet of paper takes. */
const ACROSS = 24;
/** Names of so few characters need not be turned. */
const SHORT = 3;
const WIDTH = 400, HIGH = 14;

/** Seconds as minutes and hours where they are many. */
export function told(seconds) {
  const whole = Math.round(seconds);
  if (whole < 60) return `${Number(seconds.toPrecision(2))} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${whole % 60} s`;
  return `${Math.floor(whole / 3600)} h ${Math.round((whole % 3600) / 60)} min`;
}

/** Which tool serves which hole: a mark where it does, a ring where it stands for the hole's own tool. */
export function byHole(reply) {
  const names = reply.holes.map((hole) => hole.id);
  const other = new Set(reply.changes.flatMap((one) => one.to.map((tool) => `${one.hole}\n${tool}`)));
  const order = new Map(reply.sequence.map((step) => [step.tool, step.step]));
  const tools = reply.tools.toSorted((one, next) => (order.get(one.tool) ?? 0) - (order.get(next.tool) ?? 0));
  const parts = Array.from({ length: Math.ceil(names.length / ACROSS) }, (_, place) => names.slice(place * ACROSS, (place + 1) * ACROSS));
  return [
    make("h3", {}, "Which tool serves which hole"),
    ...parts.map((some, place) => grid(some, tools, other, parts.length > 1 ? ` (${place + 1} of ${parts.length})` : "")),
    other.size ? make("p", { class: "meta" }, mark(false), " serves the hole  ", mark(true), " serves it in place of its own tool") : null,
  ];
}

function grid(names, tools, other, part) {
  const held = tools.map((tool) => [tool, new Set(tool.holes)]).filter(([, holes]) => names.some((name) => holes.has(name)));
  const head = make("tr", {}, make("th", { scope: "col" }, "Tool"), ...names.map((name) => make("th", { scope: "col" }, make("span", {}, name))));
  const rows = held.map(([tool, holes]) => make("tr", {}, make("th", { scope: "row" }, tool.tool),
    ...names.map((name) => make("td", {}, holes.has(name) ? mark(other.has(`${name}\n${tool.tool}`)) : null))));
  const caption = `Tools by holes${part}`;
  const upright = names.every((name) => name.length <= SHORT) ? " upright" : "";
  return make("div", { class: "scroll", tabindex: "0", role: "group", "aria-label": caption },
    make("table", { class: `served${upright}` }, make("caption", {}, caption), make("thead", {}, head), make("tbody", {}, ...rows)));
}

function mark(isOther) {
  const said = isOther ? "in place of its own tool" : "serves";
  return svg("svg", { viewBox: "0 0 12 12", width: 12, height: 12, role: "img", "aria-label": said, class: isOther ? "other" : "own" },
    svg("circle", { cx: 6, cy: 6, r: isOther ? 4 : 4.5 }));
}

/** The time of a part as one bar, a row for each of its pieces: each begins where the one before it ends. */
export function timeBar({ sequence, time }) {
  const cutting = new Map();
  for (const step of sequence) if (step.time) cutting.set(step.operation, (cutting.get(step.operation) ?? 0) + step.time);
  const pieces = [...[...cutting].map(([operation, seconds]) => [words(operation), seconds]),
    [`tool changes (${time.loadings})`, time.tool_changes], ["hole to hole", time.positioning]].filter(([, seconds]) => seconds > 0);
  const whole = pieces.reduce((sum, [, seconds]) => sum + seconds, 0);
  let begun = 0;
  const rows = pieces.map(([name, seconds]) => {
    const row = piece(name, seconds, begun, whole);
    begun += seconds;
    return row;
  });
  const untimed = time.untimed ? ` Without ${time.untimed} ${time.untimed === 1 ? "step" : "steps"} whose time is not known.` : "";
  return make("table", { class: "time" }, make("caption", {}, `${told(time.total)} for one part.${untimed}`), make("tbody", {}, ...rows));
}

function piece(name, seconds, begun, whole) {
  const x = (value) => ((value / whole) * WIDTH).toFixed(1);
  const bar = svg("svg", { viewBox: `0 0 ${WIDTH} ${HIGH}`, preserveAspectRatio: "none", "aria-hidden": "true" },
    svg("path", { class: "axis", d: `M0 ${HIGH - 0.5}H${WIDTH}` }),
    svg("rect", { x: x(begun), y: 0, width: x(seconds), height: HIGH }));
  return make("tr", {}, make("th", { scope: "row" }, name), make("td", {}, bar), make("td", {}, told(seconds)), make("td", {}, `${Math.round((100 * seconds) / whole)} %`));
}
