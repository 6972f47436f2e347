// <borewright-hole thread="M8" type="blind" depth="16" material="4140"></borewright-hole>: a hole in a page of other software.
// It asks the service that this script comes from, and tells `specified` (the reply) or `refused` (the problem). With
// `needs-key` it waits until the page has set its property `key`.
(() => {
  const HOME = new URL(document.currentScript.src).origin;
  const TEXTS = { thread: ["thread"], depth: ["hole", "full_thread_depth"], thickness: ["hole", "thickness"], type: ["hole", "type"],
    material: ["material"], finish: ["finish"], units: ["unit_system"], name: ["id"] };
  const CARD = { drill: "Drill", tap: "Tap", depth: "Depth", speed: "Speed", gauge: "Gauge" };
  const VERDICTS = { ready: "Ready for the shop", review: "Not yet for the shop", infeasible: "Cannot be made as it stands" };
  const STYLE = new CSSStyleSheet();
  STYLE.replaceSync(`
    :host { display: block; font: inherit; color: inherit; }
    :host([hidden]) { display: none; }
    h3, p, ul, ol, dl { margin: 0 0 .5em; font-size: inherit; }
    h3 { font-weight: 600; }
    dl { display: grid; grid-template-columns: max-content 1fr; gap: .15em 1em; }
    dd { margin: 0; font-variant-numeric: tabular-nums; }
    dt, small { opacity: .8; }
    summary { cursor: pointer; } summary, a { min-height: 24px; padding-block: 2px; } a { display: inline-block; }
    ul, ol { padding-inline-start: 1.4em; }`);

  /** An element with children; text stays text. */
  function make(tag, ...children) {
    const made = document.createElement(tag);
    made.append(...children);
    return made;
  }

  function list(tag, texts) {
    return make(tag, ...texts.map((text) => make("li", text)));
  }

  function folded(title, content) {
    return make("details", make("summary", title), content);
  }

  class BorewrightHole extends HTMLElement {
    static observedAttributes = Object.keys(TEXTS);
    #asked = 0;
    #waits = false;
    #key = null;
    #shown = this.attachShadow({ mode: "open" });

    constructor() {
      super();
      this.#shown.adoptedStyleSheets = [STYLE];
    }

    /** An API key where the service asks for one; it is never written into the page. */
    set key(given) {
      this.#key = given;
      this.#ask();
    }

    connectedCallback() { this.#ask(); }

    attributeChangedCallback() { this.#ask(); }

    /** The hole that the attributes say, as a request; a bare number goes out as a number. */
    get request() {
      const body = {};
      for (const [attribute, path] of Object.entries(TEXTS)) {
        const text = this.getAttribute(attribute)?.trim();
        if (!text) continue;
        const place = path.length > 1 ? (body[path[0]] ??= {}) : body;
        place[path.at(-1)] = /^[0-9]{1,9}(\.[0-9]{1,12})?$/.test(text) && path[0] === "hole" ? Number(text) : text;
      }
      return body;
    }

    /** Ask once for all attributes that are changed together. */
    #ask() {
      if (this.#waits || !this.isConnected || (this.hasAttribute("needs-key") && !this.#key)) return;
      this.#waits = true;
      queueMicrotask(() => { this.#waits = false; if (this.isConnected) this.#answer(); });
    }

    async #answer() {
      const turn = ++this.#asked;
      this.#shown.replaceChildren(make("p", "Asking …"));
      const [ok, told] = await this.#fetched();
      if (turn !== this.#asked) return;
      this.#shown.replaceChildren(...(ok ? this.#card(told) : this.#refusal(told)));
      this.dispatchEvent(new CustomEvent(ok ? "specified" : "refused", { detail: told, bubbles: true, composed: true }));
    }

    async #fetched() {
      const headers = { "Content-Type": "application/json", ...(this.#key ? { Authorization: `Bearer ${this.#key}` } : {}) };
      try {
        const answer = await fetch(`${HOME}/v1/hole-specs`, { method: "POST", headers, body: JSON.stringify(this.request), credentials: "omit" });
        return [answer.ok, await answer.json()];
      } catch {
        return [false, { code: "not_answered", title: "The service did not answer", errors: [] }];
      }
    }

    #card(reply) {
      const lines = Object.entries(CARD).filter(([name]) => reply.headline[name]).flatMap(([name, title]) => [make("dt", title), make("dd", reply.headline[name])]);
      const link = make("a", "The whole specification");
      link.href = `${HOME}/?${new URLSearchParams(this.#words())}`;
      return [
        make("h3", `${reply.thread.designation} ${VERDICTS[reply.verdict] ?? reply.verdict}`),
        make("dl", ...lines),
        ...(reply.review.length ? [list("ul", reply.review.map((one) => one.text))] : []),
        folded("Operations", list("ol", reply.operations.map((one) => one.text))),
        ...(reply.cautions.length ? [folded("Cautions", list("ul", reply.cautions.map((one) => one.text)))] : []),
        make("p", link),
        make("p", make("small", "The drawing, the standards it calls up and local codes govern.")),
      ];
    }

    /** The attributes as the query of the page of one hole. */
    #words() {
      return Object.keys(TEXTS).filter((name) => this.getAttribute(name)).map((name) => [name === "name" ? "ident" : name, this.getAttribute(name)]);
    }

    #refusal(problem) {
      const faults = (problem.errors ?? []).map((fault) => fault.detail);
      return [make("h3", problem.title), ...(faults.length ? [list("ul", faults)] : [])];
    }
  }

  if (!customElements.get("borewright-hole")) customElements.define("borewright-hole", BorewrightHole);
})();
