// node compile_pyc.mjs PYODIDE_FOLDER LEVEL:TREE ... - compiles every .py of each tree to .pyc beside it, with the Python
// the site runs, and removes the .py. A file that does not compile is named and left as it is.
import path from "node:path";

const [folder, ...trees] = process.argv.slice(2);
const { loadPyodide } = await import(path.resolve(folder, "pyodide.mjs"));
const python = await loadPyodide({ indexURL: path.resolve(folder) + "/" });
trees.forEach((given, index) => {
    const [, level, tree] = /^(\d):(.*)$/.exec(given);
    const mounted = `/tree${index}`;
    python.FS.mkdirTree(mounted);
    python.FS.mount(python.FS.filesystems.NODEFS, { root: path.resolve(tree) }, mounted);
    python.globals.set("root", mounted);
    python.globals.set("level", Number(level));
    console.log(python.runPython(`
import os, py_compile
kept = []
for folder, folders, names in os.walk(root):
    folders.sort()
    for name in sorted(names):
        if name.endswith(".py"):
            source = os.path.join(folder, name)
            try:
                py_compile.compile(source, cfile=source + "c", dfile=source[len(root) + 1:], doraise=True, optimize=level,
                                   invalidation_mode=py_compile.PycInvalidationMode.UNCHECKED_HASH)
                os.remove(source)
            except (py_compile.PyCompileError, UnicodeDecodeError):
                kept.append(source[len(root) + 1:])
"kept: " + " ".join(kept)`));
});
