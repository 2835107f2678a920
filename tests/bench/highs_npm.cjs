// Solves a free MPS file with npm's HiGHS, which is WebAssembly; prints one line of JSON.
//   node highs_npm.cjs FOLDER PROGRAM.mps ipm|simplex
// FOLDER has node_modules/highs: npm install highs --prefix FOLDER
"use strict";
const fs = require("fs");
const path = require("path");

const [folder, program, method] = process.argv.slice(2);
const loadHighs = require(path.join(path.resolve(folder), "node_modules", "highs"));

loadHighs().then((highs) => {
  const model = highs.createModel({ format: "mps", data: fs.readFileSync(program) });
  model.options.set({ output_flag: false, solver: method });
  const start = process.cpuUsage();
  model.run();
  const used = process.cpuUsage(start);
  const optimal = model.getModelStatus() === highs.constants.modelStatus.optimal;
  console.log(JSON.stringify({
    cost: optimal ? model.getObjectiveValue() : null,
    cpu_seconds: (used.user + used.system) / 1e6,
    said: String(model.getModelStatus()),
  }));
  model.dispose();
});
