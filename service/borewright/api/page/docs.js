// The API reference: operations, fields and examples of /openapi.json, each with a request to try.
import { make, table } from "./dom.js";

const place = document.getElementById("operations");
const status = document.getElementById("status");
let described;

/** What a local reference stands for. */
function follow(part) {
  if (!part?.$ref) return part ?? {};
  return part.$ref.slice(2).split("/").reduce((found, name) => found[name], described);
}

/** Words of a description, with `code` in backticks shown as such. */
function prose(written) {
  return written.split("`").map((piece, index) => (index % 2 ? make("code", {}, piece) : piece));
}

function kind(schema) {
  if (schema.$ref) return schema.$ref.split("/").pop();
  const choices = schema.oneOf ?? schema.anyOf;
  if (choices) return choices.map(kind).join(" or ");
  if (schema.enum) return schema.enum.map((word) => JSON.stringify(word)).join(", ");
  if (schema.type === "array") return `list of ${kind(schema.items ?? {})}`;
  return Array.isArray(schema.type) ? schema.type.join(" or ") : (schema.type ?? "any");
}

/** Schemas that a schema names, itself first, each once. */
function named(schema, found = new Map()) {
  if (Array.isArray(schema)) schema.forEach((inner) => named(inner, found));
  else if (schema && typeof schema === "object") {
    if (typeof schema.$ref === "string" && !found.has(schema.$ref)) {
      found.set(schema.$ref, follow(schema));
      named(follow(schema), found);
    }
    Object.entries(schema).forEach(([name, inner]) => name !== "$ref" && named(inner, found));
  }
  return found;
}

function fields(title, schema) {
  const tables = [...named(schema)].filter(([, one]) => one.properties).map(([reference, one]) => {
    const rows = Object.entries(one.properties).map(([name, field]) => [
      make("code", {}, name), kind(field), one.required?.includes(name) ? "needed" : "",
      make("span", {}, ...prose(field.description ?? follow(field).description ?? ""))]);
    return table(reference.split("/").pop(), ["Field", "Type", "", "Meaning"], rows);
  });
  return tables.length ? [make("details", {}, make("summary", {}, title), ...tables)] : [];
}

function parameters(operation) {
  const rows = (operation.parameters ?? []).map(follow).map((one) =>
    [make("code", {}, one.name), one.in, kind(one.schema), make("span", {}, ...prose(one.description ?? ""))]);
  return rows.length ? [table("Parameters", ["Name", "In", "Type", "Meaning"], rows)] : [];
}

function answers(operation) {
  const rows = Object.entries(operation.responses).map(([code, one]) =>
    [code, make("span", {}, ...prose(follow(one).description ?? "")), Object.keys(follow(one).content ?? {}).join(", ")]);
  return table("Answers", ["Status", "When", "As"], rows);
}

/** A form that sends one request to this very service and shows what came back. */
function trial(path, method, operation, number) {
  const content = operation.requestBody?.content["application/json"];
  const types = Object.keys(follow(operation.responses["200"]).content ?? { "application/json": {} });
  const address = make("input", { type: "text", id: `address-${number}`, value: path, spellcheck: "false" });
  const accept = make("select", { id: `accept-${number}` }, ...types.map((type) => make("option", {}, type)));
  const parts = [make("div", { class: "field wide" }, make("label", { for: address.id }, "Address"), address),
    make("div", { class: "field" }, make("label", { for: accept.id }, "Answer as"), accept)];
  let body = null;
  if (content) {
    const examples = content.examples ?? {};
    const pick = make("select", { id: `example-${number}` }, ...Object.keys(examples).map((name) => make("option", { value: name }, name.replaceAll("_", " "))));
    body = make("textarea", { id: `body-${number}`, rows: "10", spellcheck: "false" });
    const fill = () => { body.value = JSON.stringify(examples[pick.value]?.value ?? {}, null, 2); };
    pick.addEventListener("change", fill);
    fill();
    parts.push(make("div", { class: "field" }, make("label", { for: pick.id }, "Example"), pick),
      make("div", { class: "field wide" }, make("label", { for: body.id }, "Body"), body));
  }
  const shown = make("pre", { tabindex: "0", role: "group", "aria-label": `Answer of ${operation.operationId}`, hidden: "" });
  const said = make("span", { role: "status" });
  const form = make("form", { "aria-label": `Try ${operation.operationId}` }, ...parts,
    make("p", { class: "act" }, make("button", { type: "submit" }, "Send"), " ", said));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const given = body ? { body: body.value, headers: { "Content-Type": "application/json" } } : { headers: {} };
    try {
      if (!address.value.startsWith("/") || address.value.startsWith("//")) throw new TypeError("outside");
      const answer = await fetch(address.value, { ...given, method: method.toUpperCase(), headers: { ...given.headers, Accept: accept.value } });
      const came = await answer.text();
      said.textContent = `${answer.status} ${answer.headers.get("Content-Type") ?? ""}`;
      shown.textContent = answer.headers.get("Content-Type")?.includes("json") ? JSON.stringify(JSON.parse(came), null, 2) : came;
    } catch {
      said.textContent = "No answer; the address begins with / and names something of this service.";
      shown.textContent = "";
    }
    shown.hidden = !shown.textContent;
  });
  return [make("h3", {}, "Try it"), form, shown];
}

function operation(path, method, one, number) {
  const inside = make("details", { class: "operation", id: one.operationId },
    make("summary", {}, make("code", {}, `${method.toUpperCase()} ${path}`), ` ${one.summary}`));
  inside.addEventListener("toggle", () => {
    if (!inside.open || inside.children.length > 1) return;
    const request = one.requestBody?.content["application/json"]?.schema;
    const reply = follow(one.responses["200"]).content?.["application/json"]?.schema;
    inside.append(make("p", {}, ...prose(one.description ?? "")), ...parameters(one), ...fields("Fields of the request", request),
      ...fields("Fields of the reply", reply), answers(one), ...trial(path, method, one, number));
  });
  return inside;
}

async function start() {
  described = await (await fetch("/openapi.json")).json();
  document.getElementById("about").append(...described.info.description.split("\n\n").map((part) => make("p", {}, ...prose(part))));
  const all = Object.entries(described.paths).flatMap(([path, methods]) => Object.entries(methods).map(([method, one]) => [path, method, one]));
  described.tags.forEach((tag, group) => {
    const mine = all.filter(([, , one]) => one.tags?.includes(tag.name));
    if (!mine.length) return;
    place.append(make("section", {}, make("h2", {}, tag.name), make("p", {}, ...prose(tag.description)),
      ...mine.map(([path, method, one], index) => operation(path, method, one, `${group}-${index}`))));
  });
  status.textContent = `${all.length} operations.`;
  const wanted = document.getElementById(location.hash.slice(1));
  if (wanted instanceof HTMLDetailsElement) { wanted.open = true; wanted.scrollIntoView(); }
}

start().catch(() => { status.textContent = "The description could not be read; /openapi.json has it."; });
