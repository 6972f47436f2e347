// The page of hole notes: sends the note, shows what was read, what is asked back and what was not understood.
import { asking, counted } from "./asking.js";
import { facts, list, make, words } from "./dom.js";

const form = document.getElementById("ask");
const result = document.getElementById("result");
const UNITS = { inch: "in", metric: "mm" };
// Readings that need no label over the note.
const QUIET = new Set(["joining", "formatting"]);
let sent = "";

function request() {
  const typed = Object.fromEntries([...new FormData(form)].map(([name, value]) => [name, value.trim()]));
  const general = typed.general.split("\n").map((line) => line.trim()).filter(Boolean);
  const defaults = {
    ...(typed.material ? { material: typed.material } : {}),
    ...(typed.thickness ? { hole: { thickness: /^[0-9.]+$/.test(typed.thickness) ? Number(typed.thickness) : typed.thickness } } : {}),
  };
  return {
    note: form.elements.note.value,
    ...(typed.unit_system ? { unit_system: typed.unit_system } : {}),
    ...(general.length ? { general_notes: general } : {}),
    ...(Object.keys(defaults).length ? { defaults } : {}),
  };
}

/** Send the note; what is shown is marked in the one that was sent. */
function send() {
  const body = request();
  sent = body.note;
  return fetch("/v1/notes/read", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
}

function show(reply) {
  result.replaceChildren(
    make("h2", {}, "What the note says"),
    marked(reply, sent),
    ...questions(reply),
    ...reply.holes.map(hole),
    ...titled("Not understood, and without effect", reply.unread.map((one) => one.text)),
    ...titled("General notes", reply.general.map((one) => `${one.text}: ${one.changes.join(", ") || "changes nothing"}`)),
    ...titled("Assumptions", reply.assumptions),
  );
  result.hidden = false;
  return `${counted(reply.holes, "hole")} read.`;
}

/** The note with what each piece was read as; spans count code points. */
function marked(reply, note) {
  const signs = [...note];
  const spans = [...reply.holes.flatMap((one) => one.read_from), ...reply.not_holes, ...reply.unread.map((one) => ({ ...one, as: "unread" }))]
    .sort((one, other) => one.start - other.start);
  const pieces = [];
  let place = 0;
  for (const { start, end, as } of spans) {
    if (start < place) continue;
    pieces.push(signs.slice(place, start).join(""));
    const piece = make("span", { class: as === "unread" ? "unread" : "read" }, signs.slice(start, end).join(""));
    pieces.push(QUIET.has(as) ? signs.slice(start, end).join("") : piece, QUIET.has(as) ? "" : make("small", {}, words(as)));
    place = end;
  }
  return make("p", { class: "marked", "aria-label": "The note and what each piece was read as" }, ...pieces, signs.slice(place).join(""));
}

function questions(reply) {
  if (!reply.questions.length) return [];
  return [make("div", { class: "asked" }, make("h3", {}, "To answer before the holes go on"),
    list(reply.questions.map((one) => {
      const options = one.options.length ? ` ${one.options.join(" / ")}` : "";
      return `${one.hole === null ? "" : `Hole ${one.hole + 1}: `}${one.text}${options}`;
    }), "questions"))];
}

function hole(one, place) {
  const unit = UNITS[one.request.unit_system];
  const said = one.as_written;
  const sized = (value) => (value === null ? null : `${value} ${unit}`);
  const recess = (value, other, word) => value && [sized(value.diameter), value[other] === null ? null : `${value[other]} ${word}`].filter(Boolean).join(" × ");
  return make("article", { class: "hole" },
    make("h3", {}, `Hole ${place + 1}: ${one.request.thread ?? "thread not fixed"}`),
    facts([
      ["Number", one.count === null ? "not fixed" : String(one.count)],
      ["Hole", one.request.hole.type ?? "not fixed"],
      ["Full thread depth", sized(said.full_thread_depth)],
      ["Drill", sized(said.drill)],
      ["Drill depth", sized(said.drill_depth)],
      ["Countersink", recess(said.countersink, "angle", "°")],
      ["Counterbore", recess(said.counterbore, "depth", unit)],
      ["Sides", said.sides === "both" ? "both" : null],
      ["Finish", one.finish],
      ...said.words.map(({ about, text }) => [words(about), text]),
      ["Missing", one.missing.join(", ")],
    ]),
    one.ready ? opened(one.request) : null);
}

/** A form that opens the page of one hole; what it cannot carry stays in the note. */
function opened(request) {
  const { hole: asks } = request;
  const { counterbore = {}, countersink = {} } = asks;
  const fields = { thread: request.thread, type: asks.type, depth: asks.full_thread_depth, thickness: asks.thickness,
    material: request.material, finish: typeof request.finish === "string" ? request.finish : undefined, units: request.unit_system,
    limit: asks.drill_depth_limit, "stated-drill": asks.drill, "drill-depth": asks.drill_depth, "least-drill-depth": asks.least_drill_depth,
    counterbore: counterbore.diameter, "counterbore-depth": counterbore.depth,
    countersink: countersink.diameter, "countersink-angle": countersink.angle, "countersink-sides": countersink.sides };
  const given = Object.entries(fields).filter(([, value]) => value !== undefined && value !== null).map(([name, value]) => [name, String(value)]);
  return make("p", {}, make("a", { href: `/?${new URLSearchParams(given)}` }, "Open this hole"));
}

function titled(title, items) {
  return items.length ? [make("h3", {}, title), list(items)] : [];
}

asking(form, { send, show });
