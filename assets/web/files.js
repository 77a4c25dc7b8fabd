// Files that come by themselves: dropped on the page, shared from another app, or opened with this one. Each goes to Python
// as one that was chosen from the list does. What is larger than any backup is not read, only told.
(() => {
    const LARGEST = 50_000_000;         // bytes; Python says what is too large for it
    const SHARED = `foldmark-shared ${new URL(".", document.baseURI).pathname}`;        // where the service worker puts it

    async function hand(file) {
        const bytes = file.size <= LARGEST ? new Uint8Array(await file.arrayBuffer()) : new Uint8Array();
        globalThis.handFile(bytes, file.size);
    }

    addEventListener("dragover", (event) => {
        if (!event.dataTransfer?.types.includes("Files")) return;
        event.preventDefault();         // or the browser would open it in place of the app
        event.dataTransfer.dropEffect = "copy";
    });
    addEventListener("drop", (event) => {
        const file = event.dataTransfer?.files[0];
        if (!file) return;
        event.preventDefault();
        hand(file);
    });

    globalThis.launchQueue?.setConsumer(async ({ files }) => {
        if (files[0]) hand(await files[0].getFile());
    });

    async function shared() {
        const cache = await caches.open(SHARED);
        const [key] = await cache.keys();
        const found = key && (await cache.match(key));
        await caches.delete(SHARED);
        if (found) hand(await found.blob());
    }
    if (new URL(location.href).searchParams.has("shared")) shared();
})();
