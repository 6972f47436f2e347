// Small pieces of page, built as elements: text is never read as markup.

/** An element with properties and children; text children become text nodes. */
export function make(tag, given = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(given)) made.setAttribute(name, value);
  made.append(...children.filter((child) => child !== null && child !== undefined));
  return made;
}

/** The same of a picture. */
export function svg(tag, given, ...children) {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(given)) made.setAttribute(name, value);
  made.append(...children);
  return made;
}

export function words(name) {
  return name.replaceAll("_", " ");
}

/** A value of a reply as text: numbers as they are, ranges with a dash, lists with commas. */
export function text(value) {
  if (value === null || value === undefined) return "–";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return value.map(text).join(", ");
  if (typeof value !== "object") return String(value);
  if ("min" in value && "max" in value) return span(value.min, value.max);
  if ("low" in value && "high" in value) return `${text(value.value)} (${span(value.low, value.high)})`;
  return Object.entries(value).map(([name, inner]) => `${words(name)} ${text(inner)}`).join(", ");
}

function span(low, high) {
  if (low === null && high === null) return "–";
  if (low === null) return `at most ${high}`;
  if (high === null) return `at least ${low}`;
  return `${low} to ${high}`;
}

export function table(caption, heads, rows) {
  const head = make("tr", {}, ...heads.map((name) => make("th", { scope: "col" }, name)));
  const body = rows.map(([first, ...rest]) =>
    make("tr", {}, make("th", { scope: "row" }, first), ...rest.map((cell) => make("td", {}, cell))));
  return make("div", { class: "scroll", tabindex: "0", role: "group", "aria-label": caption },
    make("table", { class: "figures" }, make("caption", {}, caption), make("thead", {}, head), make("tbody", {}, ...body)));
}

export function facts(pairs, kind = "figures") {
  return make("dl", { class: kind },
    ...pairs.filter(([, value]) => value !== null && value !== undefined && value !== "")
      .flatMap(([name, value]) => [make("dt", {}, name), make("dd", {}, value)]));
}

export function list(items, kind) {
  return make("ul", kind ? { class: kind } : {}, ...items.map((item) => make("li", {}, item)));
}
