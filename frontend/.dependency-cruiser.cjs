// Which way imports run on the screen: docs/architecture.md draws it. A type import counts too.
const MAY_IMPORT = {
  contract: [],
  model: ["contract"],
  scene: ["model", "contract"],
  api: ["contract"],
  words: [],
  state: ["api", "model", "contract", "words"],
  viewer: ["scene", "model", "contract", "words"],
  components: ["model", "contract", "words"],
};
const PACKAGES = {
  three: ["scene"],
  svelte: ["state", "viewer", "components"],
  "@fluent": ["words"],
};
const folders = Object.entries(MAY_IMPORT).map(([folder, allowed]) => ({
  name: `${folder}-knows-only-${allowed.join("-") || "itself"}`,
  severity: "error",
  from: { path: `^src/lib/${folder}/` },
  to: { path: "^src/", pathNot: `^src/lib/(${[folder, ...allowed].join("|")})/` },
}));
const packages = Object.entries(PACKAGES).map(([name, homes]) => ({
  name: `${name}-stays-home`,
  severity: "error",
  from: { path: "^src/lib/", pathNot: `^src/lib/(${homes.join("|")})/` },
  to: { path: `node_modules/${name}/` },
}));
module.exports = {
  forbidden: [
    ...folders,
    ...packages,
    { name: "no-cycles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "screens-never-lean-on-each-other",
      severity: "error",
      from: { path: "^src/screens/([^/]+)/" },
      to: { path: "^src/screens/", pathNot: "^src/screens/$1/" },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    doNotFollow: { path: "node_modules" },
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "browser", "svelte", "default"] },
  },
};
