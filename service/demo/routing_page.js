// What a page of other software does with the holes that it shows.
const state = document.getElementById("state");
const decided = new Map();

function tell(hole, words) {
  decided.set(hole.getAttribute("name"), words);
  state.textContent = [...decided].map(([name, said]) => `${name}: ${said}`).join("; ");
}

document.addEventListener("specified", ({ target, detail }) => tell(target, `${detail.verdict}, ${detail.headline.drill}`));
document.addEventListener("refused", ({ target, detail }) => tell(target, detail.title));
