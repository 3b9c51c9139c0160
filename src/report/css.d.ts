// Style sheets enter as text, so that one copy serves the app and the report, which has no other file.
declare module "*.css?raw" {
  const text: string;
  export default text;
}
