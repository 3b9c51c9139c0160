// The bundler turns this import into a style sheet of the page; it has no value.
declare module "*/app.css";
/** Version of the program, put in by the build. */
declare const PROGRAM_VERSION: string;
declare module "*/guide.css";
