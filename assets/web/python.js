// Starts Python in a worker while the page is still loading, and joins it to Flet's client when that is ready.
// Takes the place of Flet's own python.js: the names jsConnect, jsSend and jsDisconnect are what the client calls.
const startTimes = (globalThis.startTimes = { page: performance.timeOrigin });
let worker = null;
const early = [];       // what is for Python before its worker is there
const toWorker = (...given) => (worker ? worker.postMessage(...given) : early.push(given));
let toClient = null;
let started = null;
const ended = new Promise((resolve, reject) => (started = { resolve, reject }));
ended.catch(() => {});

whenHere(() => {
    worker = new Worker(new URL("python-worker.js", document.baseURI), { type: "module" });
    worker.onmessage = ({ data }) => {
        if (data instanceof Uint8Array) toClient(data);
        else if (data.ask) answer(data);
        else if (data.time) startTimes[data.time] = data.at;
        else if (data.started) started.resolve();
        else if (data.failed) fail(data.failed);
    };
    worker.onerror = (event) => fail(event.message || "The program's files could not be loaded.");
    for (const given of early.splice(0)) worker.postMessage(...given);
});
addEventListener("flutter-first-frame", () => (startTimes.firstFrame = performance.timeOrigin + performance.now()));

// What Python asks of the page, by name: other scripts add to pageDoes what only a page can do.
globalThis.pageDoes ??= {};
async function answer({ ask, id, given }) {
    let answered = null;
    try {
        answered = (await globalThis.pageDoes[ask]?.(...given)) ?? null;
    } catch (trouble) {
        console.error(trouble);
    }
    toWorker({ answered, to: id });
}

// The records, where the worker leaves them to the page.
const storage = () => import(new URL("storage.js", document.baseURI));
globalThis.pageDoes.storage = async (name, ...given) => (await storage())[name](...given);
globalThis.pageDoes.watchStorage = async () => (await storage()).watch((key, revision) => toWorker({ changed: [key, revision] }));

function fail(report) {
    console.error(report);
    started.reject(new Error(report));
    showStartTrouble(report);
}

function showStartTrouble(report) {
    if (document.getElementById("start-trouble")) return;
    const box = document.createElement("div");
    box.id = "start-trouble";
    window.dispatchEvent(new Event("start-trouble"));    // first.js puts its own words away
    box.style.cssText = "position:fixed;inset:0;z-index:99999;overflow:auto;padding:24px;background:#f6f1e7;color:#1d1a16;" +
        "font:18px/1.4 system-ui,sans-serif";
    const words = document.createElement("p");
    words.textContent = "The program could not start. Your measures are safe on this device. Load it again; if that does not " +
        "help, this is what happened:";
    const detail = document.createElement("pre");
    detail.textContent = report;
    detail.style.cssText = "white-space:pre-wrap;font-size:14px;user-select:text";
    const again = document.createElement("button");
    again.textContent = "Load again";
    again.style.cssText = "min-height:48px;padding:0 24px;font:inherit";
    again.onclick = () => location.reload();
    box.append(words, again, detail);
    document.body.append(box);
}

// A file for Python, with its size; its bytes are none where they are too many.
globalThis.handFile = (file, size) => toWorker({ file, size }, [file.buffer]);

globalThis.jsConnect = async (appId, args, onMessage) => {
    toClient = onMessage;
    toWorker({ connect: true, args, documentUrl: document.URL });
    await ended;
};
globalThis.jsSend = async (appId, data) => toWorker(data, [data.buffer]);
globalThis.jsDisconnect = async () => worker.terminate();
