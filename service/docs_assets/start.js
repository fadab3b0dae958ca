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

SwaggerUIBundle({
  dom_id: "#docs",
  url: "openapi.json",
  presets: [SwaggerUIBundle.presets.apis],
  plugins: [problemPages],
  deepLinking: true,
  defaultModelsExpandDepth: 0,
  displayRequestDuration: true,
  tryItOutEnabled: true,
  validatorUrl: null,
});
