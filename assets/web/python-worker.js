// Runs Python (Pyodide) in a worker, from files of this site only: no package index, nothing fetched by name.
// The build fills in SETTINGS: the archive of packages, the folder it lies in, compiled modules, files that Python reads
// (in the folder assets beside the archive), modules to import early, the app, and what all of them stand for (a hash).
// The first start imports everything and keeps Python's memory as it then is; later ones wake it (memory.js).
import { loadPyodide } from "./pyodide/pyodide.mjs";
import { KEEPS, keepMemory, keptMemory, dropMemory } from "./memory.js";
import * as storage from "./storage.js";

const SETTINGS = /*SETTINGS*/null;
const fletBridge = {};          // what Flet's Python side knows as the module flet_js
const inbox = [];               // messages of the client that came before Python could take them
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

// Imports all that the app needs from the archive; a compiled module is found by its name.
const IMPORT = `
import gc, importlib.machinery, importlib.util, sys

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
sys.path.insert(0, "${inFolder(SETTINGS.archive)}")
${SETTINGS.early.map((name) => `import ${name}`).join("\n")}
gc.collect()
gc.freeze()
`;
// What must not be the same at every start.
const WAKE = "import random; random.seed()";

// Python with everything imported: woken from the memory of an earlier start, or made from its files.
async function begin(memory, files) {
    const python = await loadPyodide({
        indexURL: new URL("pyodide/", import.meta.url).href,
        stdout: (line) => console.log(line),
        stderr: (line) => console.error(line),
        env: { HOME: "/home/pyodide", PYTHONDONTWRITEBYTECODE: "1", PYDANTIC_DISABLE_PLUGINS: "__all__" },     // there are none
        createPyodideModule: engine,
        ...(memory ? { _loadSnapshot: memory.bytes } : KEEPS ? { _makeSnapshot: true } : {}),
    });
    note("pyodideLoaded");
    for (const [name, data] of await files) {
        const path = inFolder(name);
        python.FS.mkdirTree(path.slice(0, path.lastIndexOf("/")));
        python.FS.writeFile(path, data, { canOwn: true });
    }
    if (memory && !(await memory.sound)) throw new Error("The memory that was kept is damaged.");
    python.runPython(memory ? WAKE : IMPORT);
    return python;
}

async function run() {
    note("workerStart");
    const files = Promise.all([
        ...Object.values(SETTINGS.libraries).map((name) => [name, new Uint8Array()]),      // the engine has read them
        ...[SETTINGS.archive, ...SETTINGS.files].map(async (name) => {
            const inside = name === SETTINGS.archive ? name : `assets/${name}`;
            return [inside, new Uint8Array(await read(name))];
        }),
    ]);
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
        if (!memory && KEEPS) made = python.makeMemorySnapshot();        // nothing that anybody typed is in it yet
    } catch (trouble) {
        console.warn(trouble);
    }
    python.registerJsModule("flet_js", fletBridge);
    python.registerJsModule("page_storage", { ...storage });
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
    else if (data.file) gave(data);
    else if (typeof fletBridge.send === "function") fletBridge.send(data);
    else inbox.push(data);
};
run().catch((trouble) => self.postMessage({ failed: String(trouble) }));
