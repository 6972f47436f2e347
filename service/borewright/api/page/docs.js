// The API reference: the viewer reads /openapi.json of this very service and sends what is tried out to it.
globalThis.SwaggerUIBundle({
  url: "/openapi.json",
  domNode: document.getElementById("reference"),
  deepLinking: true,
  docExpansion: "list",
  defaultModelsExpandDepth: 0,
  displayRequestDuration: true,
  validatorUrl: null,
});
