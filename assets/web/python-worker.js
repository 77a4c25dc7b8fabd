// Runs Python (Pyodide) in a worker, from files of this site only: no package index, nothing fetched by name.
// The build fills in SETTINGS: the archives of packages and their sizes, the folder they lie in, compiled modules, files
// that Python reads (in the folder assets beside the archives), modules to import early, Flet's controls that the app
// has, the app, and what all of them stand for (a hash).
// The first start imports everything and keeps Python's memory as it then is; later ones wake it (memory.js).
import { loadPyodide } from "./pyodide/pyodide.mjs";
import { keepMemory, keptMemory, dropMemory } from "./memory.js";
import * as storage from "./storage.js";

const SETTINGS = /*SETTINGS*/null;
const LIBRARY = "pyodide/python_stdlib.zip";
const fletBridge = {};          // what Flet's Python side knows as the module flet_js
const inbox = [];               // messages of the client that came before Python could take them
const WEBKIT = /AppleWebKit/.test(navigator.userAgent) && !/Chrome\//.test(navigator.userAgent);
let connect;
const connected = new Promise((resolve) => (connect = resolve));

const note = (time) => self.postMessage({ time, at: performance.timeOrigin + performance.now() });

function sendToClient(message) {
    const bytes = message.toJs();       // a fresh copy, so its buffer may be handed over
    self.postMessage(bytes, [bytes.buffer]);
}
fletBridge.receive_callback = sendToClient;

// Asks the page for what a worker cannot do; the answer is null where the page cannot do it either.
const waiting = new Map();
function ask(name, ...given) {
    const id = crypto.randomUUID?.() ?? String(Math.random());
    return new Promise((resolve) => {
        waiting.set(id, resolve);
        self.postMessage({ ask: name, id, given });
    });
}

// WebKit locks the records where a worker ends in the middle of a change, as it does whenever its page is left. A page can
// end the change first (storage.js), so there the page changes them.
let changed = null;
const storageOfPage = {
    ...Object.fromEntries(Object.keys(storage).map((name) => [name, async (...given) =>
        (await ask("storage", name, ...given)) ?? { failed: "fault", detail: "the page did not answer" }])),
    watch(callback) {
        changed = callback;
        ask("watchStorage");
    },
};

// Files that come by themselves wait until Python takes them.
const files = [];
let takeFile = null;
function gave({ file, size }) {
    if (takeFile) takeFile(file, size);
    else files.push({ file, size });
}
function watchFiles(take) {
    takeFile = take;
    files.splice(0).forEach(gave);
}

async function read(name) {
    const answer = await fetch(new URL(name, import.meta.url));
    if (!answer.ok) throw new Error(`${name}: the host answered ${answer.status}`);
    return answer.arrayBuffer();
}

const inFolder = (name) => `${SETTINGS.folder}/${name}`;

// The engine, with the compiled modules in it from the beginning, so that they lie where an earlier memory has them.
async function engine(settings) {
    const { default: create } = await import("./pyodide/pyodide.asm.mjs");
    const urls = Object.fromEntries(Object.values(SETTINGS.libraries).map((name) => [inFolder(name), name]));
    settings.dynamicLibraries = Object.keys(urls);
    settings.locateFile = (name) => new URL(urls[name], import.meta.url).href;
    const module = await create(settings);
    const needed = settings.INITIAL_MEMORY ?? 0;        // bytes of the memory that is woken
    if (needed > module.HEAP8.length) module._malloc(needed);       // has it grow; what is in it is written over
    return module;
}

// Imports all that the app needs from the archives; a compiled module is found by its name.
const IMPORT = `
import gc, importlib.machinery, importlib.util, sys, types

class Compiled:
    """Finds the modules that the engine has loaded."""

    files = ${JSON.stringify(Object.fromEntries(Object.entries(SETTINGS.libraries).map(([name, file]) => [name, inFolder(file)])))}

    @classmethod
    def find_spec(cls, name, path=None, target=None):
        if name not in cls.files:
            return None
        loader = importlib.machinery.ExtensionFileLoader(name, cls.files[name])
        return importlib.util.spec_from_file_location(name, cls.files[name], loader=loader)

sys.meta_path.insert(0, Compiled)
sys.path[:0] = ${JSON.stringify(SETTINGS.archives.map(inFolder))}
${SETTINGS.early.map((name) => `import ${name}`).join("\n")}
import flet
for name in ${JSON.stringify(SETTINGS.controls)}:
    getattr(flet, name, None)       # it is imported when it is first asked for
sys.modules["flet_js"] = types.ModuleType("flet_js")        # stands for what the page gives (JOIN)
import flet.messaging.pyodide_connection
del sys.modules["flet_js"]
gc.collect()
gc.freeze()
`;
// What must not be the same at every start.
const WAKE = "import random; random.seed()";
// Flet's side of the page, which no memory holds.
const JOIN = "import flet.messaging.pyodide_connection as side, flet_js; side.flet_js = flet_js";

// A file that is fetched when Python first reads it. A Python that was woken has imported all and may never do so. What
// reads it cannot wait, so neither does the fetching.
function putLater(FS, path, name) {
    FS.writeFile(path, new Uint8Array());
    const { node } = FS.lookupPath(path);
    const set = (contents) => Object.defineProperty(node, "contents", { value: contents, writable: true, configurable: true });
    node.usedBytes = SETTINGS.sizes[name];
    Object.defineProperty(node, "contents", { configurable: true, get() {
        const asked = new XMLHttpRequest();
        asked.open("GET", new URL(name, import.meta.url), false);
        asked.responseType = "arraybuffer";
        try {
            asked.send();
        } catch (trouble) {
            console.error(trouble);
        }
        if (asked.response?.byteLength !== node.usedBytes) throw new FS.ErrnoError(29);        // input or output error
        set(new Uint8Array(asked.response));
        return node.contents;
    } });
}

// Python with everything imported: woken from the memory of an earlier start, or made from its files.
async function begin(memory, files) {
    const library = `/lib/python${SETTINGS.version.replace(".", "")}.zip`;
    const archives = Promise.all(
        (memory ? [] : SETTINGS.archives).map(async (name) => [name, new Uint8Array(await read(name))]),
    );
    archives.catch(() => {});
    const python = await loadPyodide({
        indexURL: new URL("pyodide/", import.meta.url).href,
        stdout: (line) => console.log(line),
        stderr: (line) => console.error(line),
        env: { HOME: "/home/pyodide", PYTHONDONTWRITEBYTECODE: "1", PYDANTIC_DISABLE_PLUGINS: "__all__" },     // there are none
        createPyodideModule: engine,
        ...(memory ? { _loadSnapshot: memory.bytes, stdLibURL: URL.createObjectURL(new Blob()) } : { _makeSnapshot: true }),
    });
    note("pyodideLoaded");
    const { FS } = python;
    const libraries = Object.values(SETTINGS.libraries).map((name) => [name, new Uint8Array()]);      // the engine has read them
    for (const [name, data] of [...libraries, ...(await archives), ...(await files)]) {
        const path = inFolder(name);
        FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
        FS.writeFile(path, data, { canOwn: true });
    }
    if (memory) {
        putLater(FS, library, LIBRARY);
        for (const name of SETTINGS.archives) putLater(FS, inFolder(name), name);
        if (!(await memory.sound)) throw new Error("The memory that was kept is damaged.");
    }
    python.runPython(memory ? WAKE : IMPORT);
    return python;
}

async function run() {
    note("workerStart");
    const files = Promise.all(SETTINGS.files.map(async (name) => [`assets/${name}`, new Uint8Array(await read(name))]));
    files.catch(() => {});        // a failure is met where it is awaited
    let memory = await keptMemory(SETTINGS.stands);
    let python = null;
    if (memory) {
        try {
            python = await begin(memory, files);
        } catch (trouble) {
            console.warn(trouble);
            await dropMemory();
            memory = null;
        }
    }
    python ??= await begin(null, files);
    note(memory ? "woken" : "imported");
    let made = null;
    try {
        if (!memory) made = python.makeMemorySnapshot();        // nothing that anybody typed is in it yet
    } catch (trouble) {
        console.warn(trouble);
    }
    python.registerJsModule("flet_js", fletBridge);
    python.runPython(JOIN);
    python.registerJsModule("page_storage", WEBKIT ? storageOfPage : { ...storage });
    python.registerJsModule("page_asks", { ask });
    python.registerJsModule("page_files", { watch: watchFiles });
    python.registerJsModule("page_picture", { read: async (bytes) => (await import("./picture.js")).read(bytes) });
    note("pythonReady");
    const { args, documentUrl } = await connected;
    Object.assign(fletBridge, { args, documentUrl });
    await python.runPythonAsync(`import ${SETTINGS.app}\n${SETTINGS.app}.start()`);
    if (typeof fletBridge.start_connection !== "function") throw new Error("The app did not call ft.run.");
    await fletBridge.start_connection(sendToClient);
    for (const message of inbox.splice(0)) fletBridge.send(message);
    self.postMessage({ started: true });
    note("appStarted");
    await keepMemory(SETTINGS.stands, made);
}

self.onmessage = ({ data }) => {
    if (data.connect) connect(data);
    else if (data.to) {
        waiting.get(data.to)?.(data.answered);
        waiting.delete(data.to);
    }
    else if (data.changed) changed(...data.changed);
    else if (data.file) gave(data);
    else if (typeof fletBridge.send === "function") fletBridge.send(data);
    else inbox.push(data);
};
run().catch((trouble) => self.postMessage({ failed: String(trouble) }));
