// The bundler turns this import into a style sheet of the page; it has no value.
declare module "*/app.css";
declare module "*/guide.css";
