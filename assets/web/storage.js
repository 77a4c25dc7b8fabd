// Saved records in IndexedDB, for Python in the worker. One record is one key with its text and a revision that only
// ever grows, also past a removal, so that a tab that fell behind is noticed. What a caller can rely on:
// - change: each record wholly or not at all, all of them in one transaction; a record before stays as it is until the new
//   text has been written beside it, read back and found equal. The transaction that changes them compares the revisions
//   first; a record that another tab was first with is left alone, and the others are changed.
// - get, all, list: a browser that has not answered within PATIENCE is asked anew, on a new connection, so that an app that is
//   opened again is not left waiting for a request that got lost; the last request waits LONG.
// - A page that is left ends its transactions itself; what was not done is done again if the page is shown again.
// - Every answer is a plain object. {failed: "full" | "stale" | "unproven" | "closed" | "silent" | "fault", detail} instead of
//   an exception: no room; another tab was first; not read back; the browser refuses; it does not answer; our own mistake.
const BASE = new URL(".", import.meta.url).pathname;
const NAME = `foldmark ${BASE}`;        // other folders of the same host keep records of their own
const RECORDS = "records";              // {key, text (null once removed), revision}
const PROVING = "proving";              // {key, owner, text, at}: written, not yet proven
const STALE_PROOF = 3600_000;
const PATIENCE = 4000, TRIES = 5, LONG = 120_000;   // ms; our choice: a busy phone answers in less than one second
const owner = crypto.randomUUID?.() ?? String(Math.random());
const channel = "BroadcastChannel" in self ? new BroadcastChannel(NAME) : null;
const going = new Set();                // transactions that have not ended
let opened = null;
let cleared = false;
let here = Promise.resolve();           // the page is shown
let leavings = 0;

function settle(request) {
    return new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
    });
}

function open() {
    opened ??= new Promise((resolve, reject) => {
        const request = self.indexedDB.open(NAME, 1);
        request.onupgradeneeded = () => {
            request.result.createObjectStore(RECORDS, { keyPath: "key" });
            request.result.createObjectStore(PROVING, { keyPath: ["key", "owner"] });
        };
        request.onerror = () => reject(request.error);
        request.onsuccess = () => {
            const database = request.result;
            database.onclose = database.onversionchange = () => {
                database.close();
                opened = null;
            };
            resolve(database);
        };
    });
    opened.catch(() => (opened = null));
    return opened;
}

function finished(transaction) {
    return new Promise((resolve, reject) => {
        transaction.oncomplete = () => resolve();
        transaction.onabort = () => reject(transaction.error ?? new DOMException("", "AbortError"));
    });
}

function abort(transaction) {
    try { transaction.abort(); } catch { /* it has ended already */ }
}

// WebKit keeps the records locked, for every page to come, where a page is left in the middle of a transaction.
self.addEventListener("pagehide", () => {
    leavings += 1;
    here = new Promise((resolve) => self.addEventListener("pageshow", resolve, { once: true }));
    going.forEach(abort);
});

async function within(mode, work, stores = [RECORDS, PROVING]) {
    const database = await open();
    await here;
    const before = leavings;
    const transaction = database.transaction(stores, mode, { durability: "strict" });
    going.add(transaction);
    const done = finished(transaction);
    done.catch(() => {}).finally(() => going.delete(transaction));
    try {
        const result = await work(...stores.map((name) => transaction.objectStore(name)));
        await done;
        return result;
    } catch (trouble) {
        abort(transaction);
        if (leavings === before) throw trouble;
        return within(mode, work, stores);
    }
}

// A reader asks for the records alone: what proves a text, in this page or in one that was left, never holds it up.
const reading = (work) => within("readonly", work, [RECORDS]);

async function clearOldProofs(database) {
    const transaction = database.transaction(PROVING, "readwrite");
    const proving = transaction.objectStore(PROVING);
    for (const left of await settle(proving.getAll())) {
        if (left.at < Date.now() - STALE_PROOF) proving.delete([left.key, left.owner]);
    }
}

const REFUSALS = ["SecurityError", "InvalidStateError", "NotAllowedError", "UnknownError", "AbortError", "TimeoutError"];

// After the first change, and nobody waits for it.
function clearOnce() {
    if (!cleared) open().then(clearOldProofs).catch(() => {});
    cleared = true;
}

function failure(trouble) {
    if (trouble?.failed) return trouble;
    const name = trouble?.name ?? "";
    const failed = name === "QuotaExceededError" ? "full" : REFUSALS.includes(name) ? "closed" : "fault";
    return { failed, detail: `${name} ${trouble?.message ?? trouble}`.trim() };
}

const answer = (work) => work().catch(failure);

async function patiently(work) {
    const within = (ms) => Promise.race([work(), new Promise((resolve) => setTimeout(resolve, ms))]);
    for (let left = TRIES; left > 1; left--) {
        const found = await within(PATIENCE);
        if (found !== undefined) return found;
        opened = null;                  // the next try opens a connection of its own
    }
    const found = await within(LONG);   // a busy device may need a minute
    if (found !== undefined) return found;
    throw { failed: "silent", detail: "no answer" };
}

async function check(records, key, expected) {
    const now = await settle(records.get(key));
    const revision = now?.revision ?? 0;
    const live = Boolean(now && now.text !== null);
    const stale = live ? revision !== expected : expected !== 0 && expected !== revision;
    return { revision, live, stale: stale && { failed: "stale", detail: `expected ${expected}, found ${revision}` } };
}

// {text, revision}; text null and the last revision (0: never saved) where there is no record.
export const get = (key) => answer(() => patiently(() => reading(async (records) => {
    const found = await settle(records.get(key));
    return { text: found?.text ?? null, revision: found?.revision ?? 0 };
})));

const under = (start) => IDBKeyRange.bound(start, start + "\uffff");

// {records}: every record whose key starts with `start`, as the JSON of [[key, text, revision], ...].
export const all = (start) => answer(() => patiently(() => reading(async (records) => {
    const found = await settle(records.getAll(under(start)));
    const live = found.filter((record) => record.text !== null);
    return { records: JSON.stringify(live.map(({ key, text, revision }) => [key, text, revision])) };
})));

// {answers}: the JSON of {key: {revision} or {failed, detail}}. `asked` is the JSON of [[key, text, expected], ...]: text
// null removes the record; expected is the revision the caller last saw, 0 for a key it believes unused.
export const change = (asked) => answer(async () => {
    const answers = {};
    const open = () => changes.filter(([key]) => !(key in answers));
    const changes = JSON.parse(asked);
    await within("readwrite", async (records, proving) => {
        for (const [key, text, expected] of changes) {
            const { stale } = await check(records, key, expected);
            if (stale) answers[key] = stale;
            else if (text !== null) await settle(proving.put({ key, owner, text, at: Date.now() }));
        }
    });
    await within("readonly", async (records, proving) => {
        for (const [key, text] of open()) {
            const proof = text === null ? { text } : await settle(proving.get([key, owner]));
            if (proof?.text !== text) answers[key] = { failed: "unproven", detail: "the written text did not read back" };
        }
    });
    const done = await within("readwrite", async (records, proving) => {
        const told = {};
        for (const [key, text, expected] of open()) {
            const { revision, live, stale } = await check(records, key, expected);
            if (!stale && (live || text !== null)) await settle(records.put({ key, text, revision: revision + 1 }));
            told[key] = stale || { revision: live || text !== null ? revision + 1 : revision };
            if (text !== null) await settle(proving.delete([key, owner]));
        }
        return told;
    });
    clearOnce();
    for (const [key, { revision }] of Object.entries(done)) if (revision) channel?.postMessage({ key, revision });
    return { answers: JSON.stringify({ ...answers, ...done }) };
});

const one = async (key, text, expected) => {
    const told = await change(JSON.stringify([[key, text, expected]]));
    return told.failed ? told : JSON.parse(told.answers)[key];
};

// {revision}: the new one.
export const put = one;
export const remove = (key, expected) => one(key, null, expected);

// {keys}: every key that has a record and starts with `start`, sorted.
export const list = (start = "") => answer(() => patiently(() => reading(async (records) => {
    const found = await settle(records.getAll(under(start)));
    return { keys: found.filter((record) => record.text !== null).map((record) => record.key).sort() };
})));

// {gone}: how many records there were. Nothing is left of them, nor of a text that was not proven yet.
export const erase = () => answer(async () => {
    const gone = await within("readwrite", async (records, proving) => {
        const found = await settle(records.getAll());
        await settle(records.clear());
        await settle(proving.clear());
        return found.filter((record) => record.text !== null);
    });
    for (const { key, revision } of gone) channel?.postMessage({ key, revision: revision + 1 });
    return { gone: gone.length };
});

// {used, quota}: bytes, as the browser says; null where it does not.
export const room = () => answer(async () => {
    const { usage = null, quota = null } = (await navigator.storage?.estimate?.()) ?? {};
    return { used: usage, quota };
});

// Calls back with the key and revision of each record that another tab changed.
export function watch(callback) {
    if (channel) channel.onmessage = ({ data }) => callback(data.key, data.revision);
}
