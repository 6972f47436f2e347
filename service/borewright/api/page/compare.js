// Holes side by side: the hole of the page first, then whatever is kept beside it, each an address of its own.
import { fill, written } from "./address.js";
import { make, table, text } from "./dom.js";
import { printed } from "./figures.js";
import { label, verdict } from "./labels.js";

const MOST = 4;
const OTHER_CLASS = { "1B": "2B", "2B": "3B", "3B": "2B", "6H": "6G", "6G": "6H", "5H": "6H" };
const PLATING = "ASTM B633 Fe/Zn 8";

/** The queries that the address keeps beside its own hole. */
export function kept() {
  return new URLSearchParams(location.search).getAll("beside").slice(0, MOST);
}

/** What the page offers to compare with, and the table of what is kept; `ask` sends a form, `keep` takes new queries. */
export function comparison(form, reply, ask, keep) {
  const own = written(form).toString();
  const queries = kept();
  const offers = variants(form, reply).filter(([, query]) => query !== own && !queries.includes(query));
  const buttons = [...offers, ["Keep this hole to compare", own]].filter(([, query]) => !queries.includes(query))
    .map(([words, query]) => button(words, () => keep([...queries, query])));
  const place = make("div", { class: "beside" });
  const inside = make("details", { id: "compare" }, make("summary", {}, "Compare with"),
    ...(queries.length < MOST ? [make("p", { class: "next" }, ...buttons)] : []), place);
  inside.open = queries.length > 0;
  if (queries.length) columns(place, form, reply, queries, ask, keep);
  return inside;
}

function button(words, press) {
  const made = make("button", { type: "button" }, words);
  made.addEventListener("click", press);
  return made;
}

/** The hole of the form with other values, as a query. */
function changed(form, values) {
  const copy = form.cloneNode(true);
  fill(copy, written(form));
  for (const [id, value] of Object.entries(values)) copy.querySelector(`[id="${id}"]`).value = value;
  return written(copy).toString();
}

function variants(form, { thread, material }) {
  const other = OTHER_CLASS[thread.class];
  const finished = form.elements.finish.value.trim();
  const steel = !material || material.iso_group === "P";
  return [
    ["Drill for least torque", changed(form, { objective: "least_torque" })],
    ...(finished ? [["Without the finish", changed(form, { finish: "" })]] : []),
    ...(!finished && steel ? [[`Plated, ${PLATING}`, changed(form, { finish: PLATING })]] : []),
    ...(other ? [[`Class ${other}`, changed(form, { thread: thread.designation.replace(thread.class, other) })]] : []),
  ];
}

async function columns(place, form, reply, queries, ask, keep) {
  const forms = queries.map((query) => {
    const copy = form.cloneNode(true);
    fill(copy, new URLSearchParams(query));
    return copy;
  });
  const replies = await Promise.all(forms.map((copy) => ask(copy).catch(() => ({ title: "The service did not answer" }))));
  const heads = queries.map((query, column) => make("span", {}, make("a", { href: `/?${query}` }, difference(form, forms[column])),
    " ", removing(query, queries, keep, difference(form, forms[column]))));
  const first = told(reply);
  const others = replies.map(told);
  const names = Object.keys(first);
  place.replaceChildren(table("Side by side; what differs from the hole of this page is bold", ["Figure", "This hole", ...heads],
    names.map((name) => [name, first[name], ...others.map((one) => cell(one[name] ?? "–", first[name]))])));
}

function removing(query, queries, keep, name) {
  const made = button("Remove", () => keep(queries.filter((one) => one !== query)));
  made.className = "quiet";
  made.setAttribute("aria-label", `Remove ${name}`);
  return made;
}

function cell(value, first) {
  return value === first ? value : make("strong", {}, value);
}

/** In which fields another hole differs from that of the form. */
function difference(form, other) {
  const said = [...form.querySelectorAll("[data-pointer]")].flatMap((field) => {
    const there = other.querySelector(`[id="${field.id}"]`);
    if (there.value.trim() === field.value.trim()) return [];
    const value = there.selectedOptions ? there.selectedOptions[0].textContent : there.value.trim();
    const name = form.querySelector(`label[for="${field.id}"]`).firstChild.textContent.trim();
    return [`${name}: ${value || "none"}`];
  });
  if (form.elements.type.value !== other.elements.type.value) said.push(other.elements.type.value);
  return said.join(", ") || "The same hole";
}

/** The figures of a reply by which holes are compared, as text; of a refusal its reason. */
function told(reply) {
  if (!reply.headline) return { Verdict: reply.errors?.[0]?.detail ?? reply.title };
  const { drill, cutting_data: cutting, acceptance, limits, units } = reply;
  const torque = cutting?.tap?.torque;
  return {
    Verdict: verdict(reply.verdict),
    ...Object.fromEntries(Object.entries(reply.headline).map(([name, words]) => [label(name), words])),
    "Thread in the mean hole": drill?.recommended.expected_percent_thread ? `${drill.recommended.expected_percent_thread} %` : "–",
    "Torque needed to tap": torque ? `${torque.value} ${units.torque}` : "–",
    "Holes expected inside the limits": acceptance ? `${Number((acceptance.both * 100).toFixed(2))} %` : "–",
    "Pitch diameter to tap": text(printed(limits.to_tap.pitch_diameter, units)),
    "Minor diameter to tap": text(printed(limits.to_tap.minor_diameter, units)),
    "To decide": reply.review.map((one) => one.text).join(" ") || "nothing",
  };
}
