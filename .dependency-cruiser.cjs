/**
 * The import rules of the house: app → lib/store → analyses → score; realtime → lib/room, lib/store.
 * One list of what each folder may use; everything of ours that is not named is refused.
 */
const analyses = ["tutti", "cuts", "breath", "hands", "rewrites", "practice", "lead", "recording", "scan"];

/** Folder of `lib` → the other folders of `lib` it may import. */
const mayUse = {
  score: [],
  calendar: [],
  zip: ["score"],
  musicxml: ["score", "zip", "edition"],
  harmony: ["score"],
  edition: ["score", "zip"],
  sound: ["score", "edition"],
  ...Object.fromEntries(analyses.map((name) => [name, ["score", "harmony", "edition"]])),
  archive: ["score", "zip", "edition", "breath", "hands", "practice", "room"],
  study: ["score", "musicxml", "harmony", "edition", ...analyses],
  inspect: ["score", "musicxml", "harmony", "edition", ...analyses, "study", "zip", "archive", "room"],
  engrave: ["score", "edition", "musicxml"],
  room: ["score", "edition"],
  store: [
    "score",
    "calendar",
    "musicxml",
    "harmony",
    "edition",
    ...analyses,
    "study",
    "inspect",
    "engrave",
    "room",
    "archive",
  ],
};

const ofOurs = "^(app|lib|realtime|seed|prisma|generated|test)/";

/** @type {import("dependency-cruiser").IForbiddenRuleType[]} */
const libRules = Object.entries(mayUse).map(([folder, used]) => ({
  name: `lib-${folder}-uses-only`,
  comment: `lib/${folder} may import ${used.length ? used.map((name) => `lib/${name}`).join(", ") : "nothing of ours"}.`,
  severity: "error",
  from: { path: `^lib/${folder}/` },
  to: {
    path: ofOurs,
    pathNot: [
      `^lib/(${[folder, ...used].join("|")})/`,
      ...(folder === "store" ? ["^generated/prisma/"] : []),
    ],
  },
}));

/** @type {import("dependency-cruiser").IConfiguration} */
module.exports = {
  forbidden: [
    ...libRules,
    {
      name: "lib-folder-is-known",
      comment: "A new folder in lib gets its line in mayUse first.",
      severity: "error",
      from: { path: "^lib/", pathNot: `^lib/(${Object.keys(mayUse).join("|")})/` },
      to: {},
    },
    {
      name: "lib-is-free-of-the-web",
      comment: "The core knows neither React nor Next.",
      severity: "error",
      from: { path: "^lib/" },
      to: { path: "node_modules/(react|react-dom|next|next-auth)/" },
    },
    {
      name: "database-in-the-store-only",
      comment:
        "Only lib/store knows the database; the bus listens on it, and the start commands open it before there is a store.",
      severity: "error",
      from: { path: "^(app|lib|realtime|seed)/", pathNot: "^lib/store/|^realtime/bus\\.ts$|^app/_commands/" },
      to: { path: "^generated/prisma/|node_modules/(pg|@prisma/[^/]+)/" },
    },
    {
      name: "yjs-in-the-room-only",
      comment: "lib/room is the only Yjs in lib.",
      severity: "error",
      from: { path: "^lib/", pathNot: "^lib/room/" },
      to: { path: "node_modules/(yjs|y-protocols|lib0)/" },
    },
    {
      name: "realtime-uses-only",
      comment: "realtime imports lib/room and lib/store, and what their signatures speak of; never app.",
      severity: "error",
      from: { path: "^realtime/" },
      to: { path: ofOurs, pathNot: "^(realtime|lib/(room|store|edition|score))/" },
    },
    {
      name: "app-knows-no-realtime",
      comment:
        "Only the server process puts pages and rooms together; the browser's side shares the protocol.",
      severity: "error",
      from: { path: "^app/", pathNot: "^app/_commands/serve\\.ts$" },
      to: { path: "^realtime/", pathNot: "^realtime/(protocol|close-codes)\\.ts$" },
    },
    {
      name: "screens-know-no-store",
      comment: "The design system and the route's components get values; only types may come from the store.",
      severity: "error",
      from: { path: "^app/(_ui|_room)/|/_components/" },
      to: { path: "^(lib/store|app/_data)/", dependencyTypesNot: ["type-only"] },
    },
    {
      name: "nothing-uses-the-seed",
      severity: "error",
      from: { path: "^(app|lib|realtime)/" },
      to: { path: "^seed/" },
    },
    {
      name: "product-uses-no-tests",
      severity: "error",
      from: { path: "^(app|lib|realtime|seed|prisma)/" },
      to: { path: "^test/" },
    },
    {
      name: "product-needs-no-development-packages",
      comment: "Migrations are made, and the code is checked, by developers only.",
      severity: "error",
      from: {
        path: "^(app|lib|realtime|seed|prisma)/",
        pathNot: "^prisma/(schema-engine|make-migration)\\.mjs$|^app/_commands/validate",
      },
      to: { dependencyTypes: ["npm-dev"], dependencyTypesNot: ["type-only"] },
    },
    {
      name: "no-circles",
      severity: "error",
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    { name: "everything-is-found", severity: "error", from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    doNotFollow: { path: "node_modules|^generated" },
    exclude: { path: "^(\\.next|dist|\\.cache)/" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "node", "default", "types"],
    },
  },
};
