// Runs one Python call inside Pyodide under Node: node pyodide_check.mjs PLAN.json
// The plan: {pyodide: folder, wheels: [file], packages: where they are unpacked inside,
// root: folder mounted as /project, code: Python to run}.
// The value of the code's last line is the exit code.
import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const plan = JSON.parse(fs.readFileSync(process.argv[2], "utf8"));
const { loadPyodide } = await import(pathToFileURL(path.join(plan.pyodide, "pyodide.mjs")));
const pyodide = await loadPyodide({
  indexURL: plan.pyodide + path.sep,
  env: { PYTHONDONTWRITEBYTECODE: "1", PYTHONUTF8: "1", HOME: "/home/pyodide" },
});
pyodide.FS.mkdirTree(plan.packages);
for (const wheel of plan.wheels) pyodide.unpackArchive(new Uint8Array(fs.readFileSync(wheel)), "wheel", { extractDir: plan.packages });
pyodide.FS.mkdirTree("/project");
pyodide.FS.mount(pyodide.FS.filesystems.NODEFS, { root: plan.root }, "/project");
try {
  process.exitCode = pyodide.runPython(plan.code);
} catch (failure) {
  // The message holds Python's own traceback; Node's would print a megabyte of Pyodide with it.
  console.error(failure.message);
  process.exitCode = 1;
}
