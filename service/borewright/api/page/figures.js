// The figures of a reply as tables and lists, with the digits that the standards print.
import { facts, list, make, table, text } from "./dom.js";
import { label } from "./labels.js";

const DIAMETERS = ["major_diameter", "pitch_diameter", "minor_diameter"];

/** A limit with the digits that tables print at least: JSON drops the zeros at the end. */
export function printed(value, units) {
  const places = units.length === "in" ? 4 : 3;
  const digits = (one) => (typeof one === "number" && one === Number(one.toFixed(places)) ? one.toFixed(places) : one);
  return value !== null && typeof value === "object" ? Object.fromEntries(Object.entries(value).map(([name, one]) => [name, digits(one)])) : digits(value);
}

/** What the tap must make and what the finished part has, beside the mating thread. */
export function limits(reply) {
  const { thread, units } = reply;
  const { to_tap: toTap, finished, gauge_now: now } = reply.limits;
  const same = JSON.stringify(toTap) === JSON.stringify(finished);
  const gauged = (name) => (now === name ? ", gauged after tapping" : "");
  const columns = same ? [["To tap and finished", toTap]]
    : [[`To tap${gauged("to_tap")}`, toTap], [`Finished part${gauged("finished")}`, finished]];
  if (thread.external) columns.push([`Mating thread ${thread.mating_class ?? ""}`, thread.external]);
  const rows = DIAMETERS.map((name) => [label(name), ...columns.map(([, found]) => text(found?.[name] ? printed(found[name], units) : found?.[name]))]);
  return table(`Limits in ${units.length === "in" ? "inches" : "millimetres"}`, ["Diameter", ...columns.map(([title]) => title)], rows);
}

/** GO and NOT GO sizes, those before the finish first, because they are wanted first. */
export function gauges({ gauging, units }) {
  const rows = sizes(gauging?.before_finish, "before the finish", units).concat(sizes(gauging, gauging?.before_finish ? "finished" : "", units));
  return rows.length ? table(`Gauges in ${units.length === "in" ? "inches" : "millimetres"}`, ["Plug", "GO", "NOT GO"], rows) : null;
}

function sizes(found, when, units) {
  const plugs = [["Thread, pitch diameter", found?.thread_plug, (plug) => plug?.pitch_diameter], ["Plain", found?.plain_plug, (plug) => plug]];
  return plugs.filter(([, plug]) => plug?.go && plug?.not_go).map(([name, plug, of]) =>
    [[name, when].filter(Boolean).join(", "), text(printed(of(plug.go) ?? null, units)), text(printed(of(plug.not_go) ?? null, units))]);
}

/** The expected share of holes inside the limits, before any is made. */
export function shares(acceptance) {
  if (!acceptance) return null;
  const rows = Object.entries(acceptance).filter(([, value]) => value !== null)
    .map(([name, value]) => [label(name), typeof value === "number" ? `${Number((value * 100).toFixed(2))} %` : value]);
  return facts(rows);
}

/** A part of the reply that has parts of its own: plain figures first, then each part under its name. */
export function level(found, units, path = []) {
  const entries = Object.entries(found).filter(([, value]) => value !== null);
  const plain = entries.filter(([, value]) => !nested(value)).map(([name, value]) => named(name, value, units));
  const title = path.length ? make("h4", {}, path.map(label).join(", ")) : null;
  const own = plain.length ? [make("div", { class: "part" }, title, facts(plain))] : [];
  return [...own, ...entries.filter(([, value]) => nested(value)).flatMap(([name, value]) => level(value, units, [...path, name]))];
}

function nested(value) {
  return value !== null && typeof value === "object" && !Array.isArray(value) && !("min" in value) && !("low" in value);
}

function named(name, value, units) {
  if (Array.isArray(value)) return [label(name), list(value.map(text))];
  const unit = typeof value === "string" ? "" : unitOf(name, units);
  const shown = unit === units.length && /diameter|^go$|^not_go$|^wear_limit$/.test(name) ? printed(value, units) : value;
  return [label(name), `${text(shown)}${unit && ` ${unit}`}`];
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
