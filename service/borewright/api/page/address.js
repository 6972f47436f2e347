// The address of the page in step with the form: every filled field by its id, the kind of hole as `type`.

function fields(form) {
  return [...form.querySelectorAll("[data-pointer]")];
}

/** What the form holds, as the query of a link that opens it again. */
export function written(form) {
  const filled = fields(form).map((field) => [field.id, field.value.trim()]).filter(([, value]) => value);
  const [thread, ...others] = filled.sort(([one], [other]) => (other === "thread") - (one === "thread"));
  return new URLSearchParams([...(thread ? [thread] : []), ["type", form.elements.type.value], ...others]);
}

/** What a link may say besides the fields. */
const OTHERS = ["type", "beside"];

/** Fill the form from the query of a link; what the link does not name is left blank. Returns the names that are unknown. */
export function fill(form, query) {
  form.reset();
  for (const field of fields(form)) if (query.has(field.id)) field.value = query.get(field.id);
  if (["blind", "through"].includes(query.get("type"))) form.elements.type.value = query.get("type");
  const known = new Set([...OTHERS, ...fields(form).map((field) => field.id)]);
  return [...new Set(query.keys())].filter((name) => !known.has(name));
}
