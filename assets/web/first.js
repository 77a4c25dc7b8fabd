// Runs before everything else on the page: says that it is starting, keeps zoom allowed, and guards what stops the
// drawing client before its first frame.
(() => {
    const VIEWPORT = "width=device-width, initial-scale=1, viewport-fit=cover";
    const LARGEST = 40_000_000; // bytes of the largest file that the app opens
    const STARTING = "Foldmark is starting.";
    const PATIENCE = 60_000;    // ms; our choice: a first visit took about 20 s on a slow machine

    // The client reads language tags and stops for good at one that is none, such as "c.UTF-8".
    function isTag(tag) {
        try {
            return Intl.getCanonicalLocales(tag).length === 1;
        } catch {
            return false;
        }
    }
    const tags = [...(navigator.languages ?? [])];
    const good = tags.filter(isTag);
    if (!isTag(navigator.language) || good.length !== tags.length || !tags.length) {
        const safe = Object.freeze(good.length ? good : ["en"]);
        Object.defineProperty(navigator, "languages", { get: () => safe });
        Object.defineProperty(navigator, "language", { get: () => safe[0] });
    }

    // The client writes a viewport that forbids zoom over ours.
    function allowZoom() {
        for (const meta of document.querySelectorAll('meta[name="viewport"]')) {
            if (/user-scalable|maximum-scale/.test(meta.content)) meta.content = VIEWPORT;
        }
    }
    new MutationObserver(allowZoom).observe(document.head, {
        childList: true, subtree: true, attributes: true, attributeFilter: ["content"],
    });

    // A held key repeats, and would tick off one mark after the other. It does what it does once, but in a field.
    window.addEventListener("keydown", (event) => {
        if (!event.repeat || !["Enter", " "].includes(event.key)) return;
        if (event.composedPath()[0].matches?.("input, textarea")) return;
        event.preventDefault();
        event.stopImmediatePropagation();
    }, true);

    // A finger on a choice chooses it. Where a reader of the screen is on, it would move the reader's place there first, and
    // the client would draw that before it draws the choice.
    window.addEventListener("mousedown", (event) => {
        const radio = event.target.closest?.('flt-semantics[role="radio"]');
        if (radio && event.sourceCapabilities?.firesTouchEvents) event.preventDefault();
    }, true);

    // The client hands over a chosen file whole, and a huge one would stop the page for minutes. It is given an empty one
    // instead, which the app tells. Its box for files is on no page, so that it is met where it is clicked.
    function guard({ target }) {
        if (![...target.files].some((file) => file.size > LARGEST)) return;
        const instead = new DataTransfer();
        instead.items.add(new File([], "too-large"));
        target.files = instead.files;
    }
    const click = HTMLElement.prototype.click;
    HTMLInputElement.prototype.click = function () {
        if (this.type === "file") this.addEventListener("change", guard, { capture: true, once: true });
        return click.call(this);
    };

    document.documentElement.lang ||= "en";

    // What the client tells readers of the screen is the main part of the page; the client does not say so.
    new MutationObserver((_, observer) => {
        const told = document.querySelector("flt-semantics-host");
        if (!told) return;
        told.setAttribute("role", "main");
        observer.disconnect();
    }).observe(document, { childList: true, subtree: true });

    // Until the first frame the page itself says what is happening.
    const words = document.createElement("p");
    words.id = "starting";
    words.setAttribute("role", "status");
    words.style.cssText = "position:fixed;left:16px;right:16px;top:calc(50% + min(100px,25vw,25vh) + 8px);z-index:1;margin:0;text-align:center;" +
        "font:18px/1.4 system-ui,sans-serif;color:" +
        (matchMedia("(prefers-color-scheme: dark)").matches ? "#d8d4cb" : "#4a463f");
    words.textContent = STARTING;
    const put = () => document.body.append(words);
    if (document.body) put();
    else document.addEventListener("DOMContentLoaded", put);

    let late;
    const lateFrom = () => (late = setTimeout(() => {
        words.textContent = "Foldmark has not started yet. What you saved is safe. ";
        const again = document.createElement("button");
        again.textContent = "Try again";
        again.style.cssText = "display:block;margin:16px auto 0;min-height:48px;padding:8px 24px;font:inherit";
        again.onclick = () => location.reload();
        words.append("If trying again does not help, open this page in another browser.", again);
    }, PATIENCE));
    lateFrom();
    function away() {
        clearTimeout(late);
        words.remove();
    }
    window.addEventListener("flutter-first-frame", away, { once: true });
    window.addEventListener("start-trouble", away, { once: true });    // it is said elsewhere on the page

    // What fetches the large files waits for this. Where the host sends them as they are, a first visit waits until the
    // service worker has fetched the packed copies and answers with what was in them: a third of the bytes.
    const { serviceWorker: workers } = navigator;
    const packed = document.querySelector('meta[name="packed"]');       // MB of the packed copies, if there are any
    let waiting = packed && workers && !workers.controller && "DecompressionStream" in window ? [] : null;
    globalThis.whenHere = (act) => (waiting ? waiting.push(act) : act());
    async function fetchPacked() {
        const head = await fetch("main.dart.js", { method: "HEAD" });
        if (head.headers.has("content-encoding")) return;
        const answers = new Promise((resolve) => workers.addEventListener("controllerchange", resolve, { once: true }));
        const { installing } = await workers.register("service-worker.js", { updateViaCache: "none" });
        if (!installing) return;        // the page was loaded anew past a worker that is there
        clearTimeout(late);
        words.textContent = `Foldmark is being fetched, once: about ${packed.content} MB. Then it needs no network.`;
        const failed = new Promise((resolve) => installing.addEventListener("statechange", () => {
            if (installing.state === "redundant") resolve();
        }));
        await Promise.race([answers, failed]);
        words.textContent = STARTING;
        lateFrom();
    }
    if (waiting) {
        fetchPacked().catch((trouble) => console.warn("The packed files were not fetched:", trouble)).finally(() => {
            const acts = waiting;
            waiting = null;
            for (const act of acts) act();
        });
    }

    // The drawing client, which the site leaves to this script; a server's page begins it by itself.
    const client = document.currentScript?.dataset.client?.split(" ") ?? [];
    if (client.length) whenHere(() => {
        for (const href of client) {
            document.head.append(Object.assign(document.createElement("link"), { rel: "preload", as: "script", href }));
        }
        const begin = () => document.body.append(Object.assign(document.createElement("script"), { src: client[0] }));
        if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", begin);
        else begin();
    });
})();
