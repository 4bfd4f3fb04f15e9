// Judge GLB files with the Khronos validator: node validate.js FILE... Prints one JSON list, a report for each file.
const { readFileSync } = require("node:fs");
const { validateBytes } = require("gltf-validator");

const judged = async (path) => {
  const { issues, info } = await validateBytes(new Uint8Array(readFileSync(path)), { maxIssues: 0 });
  return { path, issues, info };
};

Promise.all(process.argv.slice(2).map(judged)).then(
  (reports) => console.log(JSON.stringify(reports)),
  (reason) => {
    console.error(String(reason));
    process.exitCode = 1;
  },
);
