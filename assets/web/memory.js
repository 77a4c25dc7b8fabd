// Keeps Python's memory as it is once everything is imported, so that the next start need not import it again. It holds
// the program and nothing of a person. One is kept, for the files it was made of, with its hash; what is in the way of
// waking it (absent, of other files, damaged, a start with it that did not end) leads to a plain start, and a new one.
const BASE = new URL(".", import.meta.url).pathname;
const NAME = `foldmark-memory ${BASE}`;     // other folders of the same host keep caches of their own
const HASH = "x-file-hash";
const TRYING = "trying";                    // is there while a start with it has not ended

const hex = (buffer) => Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");
const digest = async (bytes) => hex(await crypto.subtle.digest("SHA-256", bytes));
const address = (name) => new URL(`memory/${name}`, import.meta.url).href;      // of no file of the site

// What was kept for these files: its bytes, and whether they are sound, which is known a moment later. Or null.
export async function keptMemory(stands) {
    try {
        const cache = await caches.open(NAME);
        const [found, tried] = await Promise.all([cache.match(address(stands)), cache.match(address(TRYING))]);
        if (!found || tried) return null;
        await cache.put(address(TRYING), new Response());
        const bytes = new Uint8Array(await found.arrayBuffer());
        return { bytes, sound: digest(bytes).then((hash) => hash === found.headers.get(HASH)) };
    } catch {
        return null;        // a private window, or a host without https
    }
}

export async function dropMemory() {
    try {
        await caches.delete(NAME);
    } catch {
        // nothing is kept then
    }
}

// A start has ended well. What it made is kept in place of all that was; with nothing made, what is there stays.
export async function keepMemory(stands, made) {
    try {
        if (made) {
            await caches.delete(NAME);
            const headers = { [HASH]: await digest(made) };
            await (await caches.open(NAME)).put(address(stands), new Response(made, { headers }));
        } else {
            await (await caches.open(NAME)).delete(address(TRYING));
        }
    } catch (trouble) {
        console.warn(trouble);      // a full device: the next start is a plain one
    }
}
