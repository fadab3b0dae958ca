"use strict";

// Below an answer that is a problem document: links to the pages about its kinds, which the JSON only names.
function problemPages(system) {
  const element = system.React.createElement;

  function pagesIn(content, contentType) {
    if (typeof content !== "string" || !/^application\/problem\+json/.test(contentType)) return [];
    const problem = JSON.parse(content);
    const types = [problem, ...problem.problems].map((each) => each.type);
    return [...new Set(types)].filter((type) => type.startsWith("/problems/"));
  }

  function link(path) {
    return element("li", { key: path }, element("a", { href: path, target: "_blank", rel: "noopener" }, path));
  }

  return {
    wrapComponents: {
      responseBody: (Original) => (props) => {
        const pages = pagesIn(props.content, props.contentType);
        const links = pages.length > 0 && element(
          "div", { className: "problem-pages" }, element("h5", null, "What this means, and how to mend it"),
          element("ul", null, pages.map(link)),
        );
        return element("div", null, element(Original, props), links);
      },
    },
  };
}

// What was sent, by its address, so that a card can be asked for with the same.
const sent = new Map();

// Below an answer that has a card: a button that asks for it and opens it beside, ready to be printed.
function cards(system) {
  const element = system.React.createElement;
  const carded = /\/v1\/(plans|reworks|breakdowns|reach)$/;

  async function open(request) {
    const tab = window.open("");
    const address = new URL(request.url);
    address.searchParams.set("format", "html");
    const headers = { ...request.headers, Accept: "text/html" };
    const answer = await fetch(address, { method: "POST", headers, body: request.body });
    tab.location = URL.createObjectURL(await answer.blob());
  }

  return {
    wrapComponents: {
      responseBody: (Original) => (props) => {
        const request = sent.get(props.url);
        const has = request && carded.test(new URL(props.url).pathname) && /^application\/json/.test(props.contentType);
        const button = has && element(
          "button", { className: "btn open-card", onClick: () => open(request) }, "Open the card",
        );
        return element("div", null, element(Original, props), button);
      },
    },
  };
}

SwaggerUIBundle({
  dom_id: "#docs",
  url: "openapi.json",
  presets: [SwaggerUIBundle.presets.apis],
  plugins: [problemPages, cards],
  requestInterceptor: (request) => {
    if (request.method === "POST") sent.set(request.url, request);
    return request;
  },
  deepLinking: true,
  defaultModelsExpandDepth: 0,
  displayRequestDuration: true,
  tryItOutEnabled: true,
  validatorUrl: null,
});
