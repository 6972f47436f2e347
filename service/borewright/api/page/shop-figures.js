// The page of what a shop measured: sends the list, shows data, published figure and fit as a picture, and what changes.
import { asking, counted, meant } from "./asking.js";
import { facts, list, make, svg, table } from "./dom.js";
import { EXAMPLE } from "./shop-example.js";

const form = document.getElementById("ask");
const file = document.getElementById("file");
const result = document.getElementById("result");
const TYPES = { xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", ndjson: "application/x-ndjson" };
const NAMES = { drill_oversize: "Oversize of drilled holes", tap_oversize: "Oversize of tapped threads", coat: "Thickness of the coat on a surface",
  tapping_torque: "Tapping torque", tap_life: "Taps that broke", go_no_go: "Counts of GO and NOT GO" };
const UNITS = { share: "of the tolerance", times: "times the model's", rate: "a hole" };
const WIDTH = 720, HEIGHT = 190, SIDE = 24, FOOT = 150, TOP = 22;

const short = (value) => String(Number(value.toPrecision(3)));
const ends = (one) => `${short(one.low)} to ${short(one.high)}`;

function send() {
  const said = new URLSearchParams([...new FormData(form)].filter(([name, value]) => name !== "list" && value));
  const chosen = file.files[0];
  const type = TYPES[chosen?.name.split(".").at(-1).toLowerCase()] ?? "text/csv";
  return fetch(`/v1/shop-figures/fit?${said}`, { method: "POST", headers: { "Content-Type": type }, body: chosen ?? form.elements.list.value });
}

function tell(fault) {
  const line = fault.pointer?.match(/^\/measurements\/(\d+)/);
  return `${line ? `Measurement ${Number(line[1]) + 1}: ` : ""}${meant(fault)}`;
}

function show(reply) {
  const changes = reply.changes.map((one) => [one.hole, one.what, one.before, one.after]);
  result.replaceChildren(...[
    make("h2", {}, "Your figures"),
    ...reply.fit.map(figure),
    make("h2", {}, "What would now differ"),
    changes.length ? table(`Of ${reply.compared} typical holes`, ["hole", "what", "tables", "shop"], changes)
      : make("p", {}, `None of ${reply.compared} typical decisions would differ.`),
    make("h2", {}, "Figures to keep"),
    make("p", { class: "meta" }, "Send them as shop_figures with holes, drills, taps, allowances, audits, batches and part plans."),
    kept(reply.shop_figures),
    make("h3", {}, "Assumptions"), list(reply.assumptions),
    make("p", { class: "meta" }, reply.notice),
  ]);
  result.hidden = false;
  return `${counted(reply.fit, "figure")}.`;
}

function kept(figures) {
  const area = make("textarea", { rows: "8", readonly: "", "aria-label": "shop_figures as JSON" });
  area.value = JSON.stringify(figures, null, 1);
  return area;
}

function figure(row) {
  const unit = UNITS[row.unit] ?? row.unit;
  return make("article", { class: "fitted" },
    make("h3", {}, `${NAMES[row.figure]}: ${row.group}`),
    row.posterior ? picture(row, unit) : null,
    row.posterior ? facts([
      ["published", `${short(row.prior.mean)} ${unit}`],
      ["measured", `${short(row.data.mean)} ${unit} in ${row.data.count} pieces`],
      ["now", `${short(row.posterior.mean)} ${unit} (${ends(row.interval.mean)}); the data weigh ${short(100 * row.posterior.weight)} %`],
      ["standard deviation", `${short(row.posterior.standard_deviation)} (${ends(row.interval.standard_deviation)})`],
      ["next piece", ends(row.interval.next)],
    ]) : facts([
      ["counted", `${row.counted.bad} of ${row.counted.checked}`],
      ["at most", `${short(100 * row.counted.exact_upper)} % (exact)`],
    ]),
    row.next_text ? make("p", {}, row.next_text) : null,
    row.remarks.length ? list(row.remarks.map((one) => one.text), "cautions") : null);
}

/** Data as dots, the published figure dashed, the fit as a line; one axis, the interval of the next piece on it. */
function picture(row, unit) {
  const log = row.unit === "times";
  const at = (value) => (log ? Math.log(value) : value);
  const book = { mean: at(row.prior.mean), sigma: row.prior.standard_deviation };
  const own = { mean: at(row.posterior.mean), sigma: (at(row.interval.next.high) - at(row.interval.next.low)) / 4 };
  const values = row.values.map(at);
  const least = Math.min(book.mean - 3 * book.sigma, own.mean - 3 * own.sigma, ...values);
  const most = Math.max(book.mean + 3 * book.sigma, own.mean + 3 * own.sigma, ...values);
  const x = (value) => SIDE + ((value - least) / (most - least)) * (WIDTH - 2 * SIDE);
  const peak = 1 / Math.min(book.sigma, own.sigma);
  const told = `Published ${short(row.prior.mean)}, measured ${short(row.data.mean)}, now ${short(row.posterior.mean)} ${unit}.`;
  const outside = new Set(row.outliers.map((one) => one.value));
  return svg("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, role: "img", "aria-label": told },
    svg("path", { class: "axis", d: `M${SIDE} ${FOOT}H${WIDTH - SIDE}` }),
    ...ticks(least, most).map((value) => svg("g", {},
      svg("path", { class: "axis", d: `M${x(value)} ${FOOT}v5` }),
      label(x(value), FOOT + 20, short(log ? Math.exp(value) : value)))),
    svg("path", { class: "book", d: curve(book, x, peak, least, most) }),
    svg("path", { class: "own", d: curve(own, x, peak, least, most) }),
    ...stacked(values.map(x)).map(([across, up], place) =>
      svg("circle", { class: outside.has(row.values[place]) ? "outside" : "piece", cx: across, cy: FOOT - 6 - up, r: 3 })),
    published(book, own, x, peak),
    label(x(own.mean), Math.max(TOP - 6, height(own, peak) - 6), "your shop"),
    label(WIDTH - SIDE, HEIGHT - 4, unit, "soft end"));
}

/** The name of the published curve: over its top, or beside it where the two tops are near. */
function published(book, own, x, peak) {
  if (Math.abs(x(book.mean) - x(own.mean)) > 110) return label(x(book.mean), Math.max(TOP - 6, height(book, peak) - 6), "published", "soft");
  const beside = book.mean + 1.4 * book.sigma;
  return label(x(beside) + 40, FOOT - (FOOT - height(book, peak)) * Math.exp(-0.98) - 6, "published", "soft");
}

const height = (one, peak) => FOOT - (FOOT - TOP) / (one.sigma * peak);

function curve(one, x, peak, least, most) {
  const points = Array.from({ length: 121 }, (_, step) => least + ((most - least) * step) / 120);
  const up = (value) => FOOT - (FOOT - TOP) * Math.exp(-(((value - one.mean) / one.sigma) ** 2) / 2) / (one.sigma * peak);
  return `M${points.map((value) => `${x(value).toFixed(1)} ${up(value).toFixed(1)}`).join("L")}`;
}

/** Dots that would cover one another stand one above the other. */
function stacked(across) {
  const seen = new Map();
  return across.map((one) => {
    const column = Math.round(one / 6);
    const up = seen.get(column) ?? 0;
    seen.set(column, up + 1);
    return [one, up * 7];
  });
}

function ticks(least, most) {
  const rough = (most - least) / 6, unit = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * unit).find((one) => one >= rough);
  const first = Math.ceil(least / step);
  return Array.from({ length: Math.floor(most / step) - first + 1 }, (_, place) => (first + place) * step);
}

function label(x, y, said, kind = "") {
  const anchor = kind.includes("end") ? "end" : "middle";
  return svg("text", { x, y, "text-anchor": anchor, class: kind.replace(" end", "") }, said);
}

document.getElementById("example").addEventListener("click", () => {
  file.value = "";
  form.elements.list.value = EXAMPLE;
  form.requestSubmit();
});
form.elements.list.addEventListener("input", () => { file.value = ""; });
asking(form, { send, show, tell });
