// node compile.mjs DISTRIBUTION CODE.py FILE ...: compiles the Python of wheels with the very Python that will run them.
import { readFileSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, code, ...files] = process.argv.slice(2).map((part) => resolve(part));
const { loadPyodide } = await import(pathToFileURL(`${folder}/pyodide.mjs`));
const python = await loadPyodide({ indexURL: folder });
python.runPython(readFileSync(code, "utf-8"));
const compiled = python.globals.get("compiled");
for (const file of files) {
  python.FS.writeFile("/tmp/in.whl", readFileSync(file));
  compiled("/tmp/in.whl", "/tmp/out.whl");
  writeFileSync(file, python.FS.readFile("/tmp/out.whl"));
}
