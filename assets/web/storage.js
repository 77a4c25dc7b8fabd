// Saved records in IndexedDB, for Python in the worker. One record is one key with its text and a revision that only
// ever grows, also past a removal, so that a tab that fell behind is noticed. What a caller can rely on:
// - put, remove: all or nothing, in one transaction; the record before stays as it is until the new text has been written
//   beside it, read back and found equal. The transaction that changes them compares the revision first.
// - get, list: a browser that has not answered within PATIENCE is asked anew, on a new connection, so that an app that is
//   opened again is never left waiting for a request that got lost.
// - Every answer is a plain object. {failed: "full" | "stale" | "unproven" | "closed", detail} instead of an exception.
const BASE = new URL(".", import.meta.url).pathname;
const NAME = `foldmark ${BASE}`;        // other folders of the same host keep records of their own
const RECORDS = "records";              // {key, text (null once removed), revision}
const PROVING = "proving";              // {key, owner, text, at}: written, not yet proven
const STALE_PROOF = 3600_000;
const PATIENCE = 4000, TRIES = 5;       // ms; our choice: a busy phone answers in less than one
const owner = crypto.randomUUID?.() ?? String(Math.random());
const channel = "BroadcastChannel" in self ? new BroadcastChannel(NAME) : null;
let opened = null;

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
    opened.then(clearOldProofs).catch(() => {});    // nobody waits for it
    opened.catch(() => (opened = null));
    return opened;
}

function finished(transaction) {
    return new Promise((resolve, reject) => {
        transaction.oncomplete = () => resolve();
        transaction.onabort = () => reject(transaction.error ?? new DOMException("", "AbortError"));
    });
}

async function within(mode, work) {
    const database = await open();
    const transaction = database.transaction([RECORDS, PROVING], mode, { durability: "strict" });
    const done = finished(transaction);
    done.catch(() => {});
    let result;
    try {
        result = await work(transaction.objectStore(RECORDS), transaction.objectStore(PROVING));
    } catch (trouble) {
        try { transaction.abort(); } catch { /* it has ended already */ }
        throw trouble;
    }
    await done;
    return result;
}

async function clearOldProofs(database) {
    const transaction = database.transaction(PROVING, "readwrite");
    const proving = transaction.objectStore(PROVING);
    for (const left of await settle(proving.getAll())) {
        if (left.at < Date.now() - STALE_PROOF) proving.delete([left.key, left.owner]);
    }
}

function failure(trouble) {
    if (trouble?.failed) return trouble;
    const kinds = { QuotaExceededError: "full" };
    return { failed: kinds[trouble?.name] ?? "closed", detail: `${trouble?.name ?? ""} ${trouble?.message ?? trouble}`.trim() };
}

const answer = (work) => work().catch(failure);

async function patiently(work) {
    for (let left = TRIES; left > 1; left--) {
        const late = new Promise((resolve) => setTimeout(resolve, PATIENCE));
        const found = await Promise.race([work(), late]);
        if (found !== undefined) return found;
        opened = null;                  // the next try opens a connection of its own
    }
    return work();
}

async function check(records, key, expected) {
    const now = await settle(records.get(key));
    const revision = now?.revision ?? 0;
    const live = now && now.text !== null;
    if (live ? revision !== expected : expected !== 0 && expected !== revision) {
        throw { failed: "stale", detail: `expected ${expected}, found ${revision}` };
    }
    return revision;
}

// {text, revision}; text null and the last revision (0: never saved) where there is no record.
export const get = (key) => answer(() => patiently(() => within("readonly", async (records) => {
    const found = await settle(records.get(key));
    return { text: found?.text ?? null, revision: found?.revision ?? 0 };
})));

// {revision}: the new one. expected is the revision the caller last saw, 0 for a key it believes unused.
export const put = (key, text, expected) => answer(async () => {
    await within("readwrite", async (records, proving) => {
        await check(records, key, expected);
        await settle(proving.put({ key, owner, text, at: Date.now() }));
    });
    const proof = await within("readonly", (records, proving) => settle(proving.get([key, owner])));
    if (proof?.text !== text) throw { failed: "unproven", detail: "the written text did not read back" };
    const revision = await within("readwrite", async (records, proving) => {
        const next = (await check(records, key, expected)) + 1;
        await settle(records.put({ key, text, revision: next }));
        await settle(proving.delete([key, owner]));
        return next;
    });
    channel?.postMessage({ key, revision });
    return { revision };
});

export const remove = (key, expected) => answer(async () => {
    const revision = await within("readwrite", async (records) => {
        const next = (await check(records, key, expected)) + 1;
        await settle(records.put({ key, text: null, revision: next }));
        return next;
    });
    channel?.postMessage({ key, revision });
    return { revision };
});

// {keys}: every key that has a record, sorted.
export const list = () => answer(() => patiently(() => within("readonly", async (records) => {
    const all = await settle(records.getAll());
    return { keys: all.filter((record) => record.text !== null).map((record) => record.key).sort() };
})));

// Calls back with the key and revision of each record that another tab changed.
export function watch(callback) {
    if (channel) channel.onmessage = ({ data }) => callback(data.key, data.revision);
}
