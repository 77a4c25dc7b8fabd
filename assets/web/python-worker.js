// Runs Python (Pyodide) in a worker, from files of this site only: no package index, nothing fetched by name.
// The build fills in SETTINGS: the archive of packages, the folder to unpack it to, the site's fonts (Python finds them
// where a checkout has them: assets/fonts beside the packages), modules to import early, the app.
import { loadPyodide } from "./pyodide/pyodide.mjs";
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

async function run() {
    note("workerStart");
    const archive = read(SETTINGS.archive);
    const fonts = Promise.all(SETTINGS.fonts.map((name) => read(`fonts/${name}`)));
    for (const asked of [archive, fonts]) asked.catch(() => {});        // a failure is met where it is awaited
    const python = await loadPyodide({
        indexURL: new URL("pyodide/", import.meta.url).href,
        stdout: (line) => console.log(line),
        stderr: (line) => console.error(line),
        env: { HOME: "/home/pyodide", PYTHONDONTWRITEBYTECODE: "1" },
    });
    note("pyodideLoaded");
    python.unpackArchive(await archive, "zip", { extractDir: SETTINGS.folder });
    note("unpacked");
    python.FS.mkdirTree(`${SETTINGS.folder}/assets/fonts`);
    (await fonts).forEach((data, index) =>
        python.FS.writeFile(`${SETTINGS.folder}/assets/fonts/${SETTINGS.fonts[index]}`, new Uint8Array(data)));
    python.registerJsModule("flet_js", fletBridge);
    python.registerJsModule("page_storage", { ...storage });
    python.registerJsModule("page_asks", { ask });
    python.registerJsModule("page_files", { watch: watchFiles });
    python.registerJsModule("page_picture", { read: async (bytes) => (await import("./picture.js")).read(bytes) });
    python.runPython(SETTINGS.early.map((name) => `import ${name}`).join("\n"));
    note("pythonReady");
    const { args, documentUrl } = await connected;
    Object.assign(fletBridge, { args, documentUrl });
    await python.runPythonAsync(`import ${SETTINGS.app}\n${SETTINGS.app}.start()`);
    if (typeof fletBridge.start_connection !== "function") throw new Error("The app did not call ft.run.");
    await fletBridge.start_connection(sendToClient);
    for (const message of inbox.splice(0)) fletBridge.send(message);
    self.postMessage({ started: true });
    note("appStarted");
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
