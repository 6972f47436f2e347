// The request of the hole on the page, to be copied into a program.
import { make } from "./dom.js";

export function copies(body) {
  const forms = requests(body);
  const shown = make("pre", { id: "copy-text", tabindex: "0", role: "group", "aria-label": "Request to copy" });
  const pick = make("select", { id: "copy-form" }, ...Object.keys(forms).map((name) => make("option", {}, name)));
  const said = make("span", { role: "status" });
  const button = make("button", { type: "button" }, "Copy");
  const change = () => { shown.textContent = forms[pick.value]; said.textContent = ""; };
  pick.addEventListener("change", change);
  button.addEventListener("click", () => copied(shown.textContent, said));
  change();
  return [make("label", { for: "copy-form" }, "As"), pick, shown, make("p", {}, button, said)];
}

/** Put a text on the clipboard and tell what became of it. */
export function copied(words, said) {
  const failed = () => { said.textContent = " The browser does not allow it: select the text and copy it."; };
  if (!navigator.clipboard) return failed();
  return navigator.clipboard.writeText(words).then(() => { said.textContent = " Copied."; }, failed);
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
