// What the pages with one form have in common: it is sent, and the answer or the refusal is shown.
import { make } from "./dom.js";

const UNREACHED = { title: "The service did not answer", detail: "Is it running? Try again.", errors: [] };

/** Of more than these nothing is probable. */
const FEW = 3;

/** What is wrong, and what was probably meant. */
export function meant(fault, said = String) {
  const names = (fault.did_you_mean ?? []).map((one) => said(one));
  if (!names.length) return fault.detail;
  const listed = names.length < 2 ? names[0] : `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
  return `${fault.detail} ${names.length > FEW ? `It can be ${listed}.` : `Probably ${listed} is meant.`}`;
}

/** Where cause and remedy of a problem stand. */
export function explained(problem) {
  return problem.type ? make("p", {}, make("a", { href: problem.type }, "What to do next")) : null;
}

/** How many there are of what has its plural by an s. */
export function counted(found, name) {
  return `${found.length} ${name}${found.length === 1 ? "" : "s"}`;
}

/** Ask whenever the form is sent; of answers that cross, that to the last question counts.
 *  `send` asks the service; `show` puts the reply on the page and returns what is said of it; `tell` is the text of a fault,
 *  whose field it may mark. */
export function asking(form, { send, show, tell = (fault) => fault.detail }) {
  const [status, refused, result] = ["status", "refused", "result"].map((id) => document.getElementById(id));
  let asked = 0;

  async function submit(event) {
    event.preventDefault();
    const turn = ++asked;
    refused.hidden = true;
    refused.replaceChildren();
    result.hidden = true;
    for (const one of form.querySelectorAll("[aria-invalid]")) one.removeAttribute("aria-invalid");
    status.textContent = "Working …";
    try {
      const answer = await send();
      const reply = await answer.json();
      if (turn !== asked) return;
      if (!answer.ok) return refuse(reply);
      status.textContent = show(reply);
      result.focus();
    } catch {
      if (turn === asked) refuse(UNREACHED);
    }
  }

  function refuse(problem) {
    status.textContent = "";
    refused.append(make("p", {}, make("strong", {}, problem.title)));
    const faults = problem.errors?.length ? problem.errors : [problem];
    refused.append(...[...faults.map((fault) => make("p", {}, tell(fault))), explained(problem)].filter(Boolean));
    refused.hidden = false;
    refused.focus();
  }

  form.addEventListener("submit", submit);
}
