// Validates the .glb files given as arguments with the Khronos Group's glTF validator and prints a line for each.
// Exit 1: a file has an error or a warning. Informations and hints are counted and no more.
import { readFile } from "node:fs/promises";
import { validateBytes } from "gltf-validator";

const files = process.argv.slice(2);
if (files.length === 0) {
  console.error("usage: node validate.mjs FILE.glb ...");
  process.exit(1);
}
const levels = ["error", "warning", "information", "hint"]; // by the validator's severity
for (const file of files) {
  try {
    const { issues, info } = await validateBytes(new Uint8Array(await readFile(file)), { uri: file, format: "glb", maxIssues: 0 });
    const bad = issues.messages.filter((m) => m.severity <= 1);
    console.log(
      `${bad.length ? "FAIL" : "ok  "} ${file}: ${issues.numErrors} errors, ${issues.numWarnings} warnings, ` +
        `${issues.numInfos} informations, ${issues.numHints} hints; ` +
        (info ? `${info.totalVertexCount} vertices, ${info.totalTriangleCount} triangles, ${info.drawCallCount} draw calls` : "no glTF in it"),
    );
    for (const m of bad.slice(0, 20)) {
      console.log(`       ${levels[m.severity]} ${m.code} at ${m.pointer ?? `byte ${m.offset}`}: ${m.message}`);
    }
    if (bad.length) process.exitCode = 1;
  } catch (e) {
    console.log(`FAIL ${file}: ${e instanceof Error ? e.message : e}`);
    process.exitCode = 1;
  }
}
