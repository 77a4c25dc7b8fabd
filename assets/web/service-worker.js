// Keeps the whole site on the device. The build fills in VERSION, FILES (path: sha256) and PACKED, the paths that have a
// copy PATH.gz, which is fetched and unpacked where the host sends the file itself uncompressed. A new version is fetched beside
// the old one, checked file by file, and waits until the user takes it; files that did not change are copied, not fetched.
const VERSION = /*VERSION*/null;
const FILES = /*FILES*/null;
const PACKED = new Set(/*PACKED*/null);
const BASE = new URL(self.registration.scope).pathname;
const PREFIX = `foldmark ${BASE} `;      // other folders of the same host keep caches of their own
const CACHE = PREFIX + VERSION;
const SHARED = `foldmark-shared ${BASE}`;        // what another app shared, until the page takes it (files.js)
const HASH = "x-file-hash";
const AT_ONCE = 6;

const address = (name) => new URL(name, self.registration.scope).href;
const hex = (buffer) => Array.from(new Uint8Array(buffer), (byte) => byte.toString(16).padStart(2, "0")).join("");

async function data(answer) {
    if (!answer.ok) throw new Error(`${answer.url}: the host answered ${answer.status}`);
    return answer.arrayBuffer();
}

// The bytes of a file and its type, as few on the way as the host and the browser allow.
async function fetched(name, mode) {
    const url = address(name), how = { cache: mode, credentials: "same-origin" };
    if (PACKED.has(name) && "DecompressionStream" in self) {
        const head = await fetch(url, { ...how, method: "HEAD" });
        const packed = head.ok && !head.headers.has("content-encoding") && (await fetch(`${url}.gz`, how));
        if (packed?.ok) {
            const bytes = await packed.arrayBuffer(), [one, two] = new Uint8Array(bytes);
            const still = one === 0x1f && two === 0x8b;     // some hosts have it unpacked on the way
            const unpacked = still && new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
            return [still ? await data(new Response(unpacked)) : bytes, head.headers.get("content-type")];
        }
    }
    const answer = await fetch(url, how);
    return [await data(answer), answer.headers.get("content-type")];
}

async function keep(cache, earlier, name, hash) {
    const url = address(name);
    for (const old of [cache, ...earlier]) {
        const known = await old.match(url);
        if (known && known.headers.get(HASH) === hash) {
            if (old !== cache) await cache.put(url, known);
            return;
        }
    }
    let bytes, type;
    for (const mode of ["no-cache", "reload"]) {         // ask whether the browser's copy is fresh; then insist
        [bytes, type] = await fetched(name, mode);
        if (hex(await crypto.subtle.digest("SHA-256", bytes)) === hash) break;
        bytes = null;
    }
    if (!bytes) throw new Error(`${name} is not the file of this version; the host may be half way through an update`);
    const headers = { "content-type": type || "application/octet-stream", [HASH]: hash };
    await cache.put(url, new Response(bytes, { headers }));
}

async function install() {
    const cache = await caches.open(CACHE);
    const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
    const earlier = await Promise.all(names.map((name) => caches.open(name)));
    const waiting = Object.entries(FILES);
    const work = async () => {
        for (let next = waiting.shift(); next; next = waiting.shift()) await keep(cache, earlier, ...next);
    };
    await Promise.all(Array.from({ length: AT_ONCE }, work));
}

async function activate() {
    for (const name of await caches.keys()) if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
    await self.clients.claim();
}

async function answer(request) {
    const cache = await caches.open(CACHE);
    const url = new URL(request.url);
    const wanted = request.mode === "navigate" ? address("index.html") : url.origin + url.pathname;
    return (await cache.match(wanted)) || fetch(request);
}

async function take(request) {
    const file = (await request.formData()).get("file");
    if (file) await (await caches.open(SHARED)).put(address("shared-file"), new Response(file));
    return Response.redirect(address("./?shared"), 303);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => {
    if (event.data === "take over") self.skipWaiting();
});
self.addEventListener("fetch", (event) => {
    const { method, url } = event.request;
    if (method === "POST" && url === address("share")) event.respondWith(take(event.request));
    if (method === "GET" && url.startsWith(self.registration.scope)) event.respondWith(answer(event.request));
});
