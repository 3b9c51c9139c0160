// The arrows of the house: which room may import which. See docs/architecture.md.
const arrows = {
  units: [],
  wire: [],
  numerics: [],
  air: [],
  fluids: ["numerics"],
  service: ["fluids", "air", "numerics"],
  vehicle: ["fluids", "air", "numerics"],
  inference: ["numerics"],
  evidence: ["inference", "vehicle", "service", "fluids", "air", "numerics"],
  trial: ["units", "numerics", "fluids", "air", "service", "vehicle", "inference", "evidence"],
  calculations: [
    "units",
    "numerics",
    "fluids",
    "air",
    "service",
    "vehicle",
    "inference",
    "evidence",
    "trial",
  ],
  store: ["trial"],
  report: ["units", "trial", "calculations"],
  server: ["wire", "store", "report", "trial", "calculations"],
  cli: ["wire", "store", "report", "trial", "calculations"],
  web: ["units", "store", "report", "trial", "calculations"],
};
const tests = "\\.(test|bench)\\.tsx?$";

const forbidden = [
  { name: "no-circular", severity: "error", from: {}, to: { circular: true } },
  {
    name: "not-to-unresolvable",
    severity: "error",
    from: {},
    to: { couldNotResolve: true },
  },
];
for (const [room, allowed] of Object.entries(arrows)) {
  const others = Object.keys(arrows).filter((name) => name !== room && !allowed.includes(name));
  forbidden.push({
    name: `${room}-against-the-arrows`,
    severity: "error",
    from: { path: `^src/${room}/`, pathNot: tests },
    to: { path: `^src/(${others.join("|")})/` },
  });
  forbidden.push({
    name: `${room}-past-the-door`,
    comment: "A room is entered only through its index.ts.",
    severity: "error",
    from: { path: "^src/", pathNot: `^src/${room}/` },
    to: { path: `^src/${room}/`, pathNot: `^src/${room}/(index|browser|node)\\.tsx?$` },
  });
}
for (const [library, room] of [
  ["psychrolib", "air"],
  ["better-sqlite3", "store"],
  ["papaparse", "trial"],
  ["pg", "store"],
]) {
  forbidden.push({
    name: `${library}-only-in-${room}`,
    severity: "error",
    from: { path: "^src/", pathNot: `^src/${room}/` },
    to: { path: `node_modules/${library}/` },
  });
}

module.exports = {
  forbidden,
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.app.json" },
    exclude: { path: "^(dist|\\.types)" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "default"] },
  },
};
