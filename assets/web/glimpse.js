// Shows, as soon as the page is there and before any engine, what Python had it keep at the end of the last start (app/glimpse.py):
// the mark being chalked with its readings, or what is in work. It is shown only where it belongs to the address, and where the
// records it names are kept with the revisions it names, so that no reading is an old one. It goes when the screen is drawn.
(() => {
    const BASE = new URL(".", document.baseURI).pathname;
    const KEY = `foldmark glimpse ${BASE}`;     // other folders of the same host keep theirs
    const NAME = `foldmark ${BASE}`;            // the records (storage.js)
    const RECORDS = "records";
    const does = (globalThis.pageDoes ??= {});
    let shown = null, starting = null, over = false;

    does.glimpse = (text) => {
        if (text) localStorage.setItem(KEY, text);
        else localStorage.removeItem(KEY);
    };
    does.arrived = () => requestAnimationFrame(() => requestAnimationFrame(away));      // what is drawn has been painted then
    addEventListener("start-trouble", away);
    addEventListener("flutter-first-frame", () => starting && shown?.append(starting), { once: true });

    function away() {
        over = true;
        shown?.remove();
        shown = null;
    }

    // Whether the records are kept with these revisions. A place for records that is not there is not made.
    function still(of) {
        return new Promise((resolve) => {
            const opening = indexedDB.open(NAME);
            opening.onupgradeneeded = () => opening.transaction.abort();
            opening.onerror = opening.onblocked = () => resolve(false);
            opening.onsuccess = () => {
                const database = opening.result;
                const store = database.transaction(RECORDS).objectStore(RECORDS);
                const leave = () => store.transaction.abort();         // or WebKit locks the records (storage.js)
                addEventListener("pagehide", leave);
                const asked = Object.keys(of).map((key) => [store.get(key), of[key]]);
                store.transaction.oncomplete = () => {
                    removeEventListener("pagehide", leave);
                    database.close();
                    resolve(asked.every(([got, revision]) => got.result?.text != null && got.result.revision === revision));
                };
                store.transaction.onabort = () => resolve(false);
            };
        });
    }

    function line(text, style, tag = "p") {
        const made = document.createElement(tag);
        made.textContent = text;
        made.style.cssText = `margin:0;${style}`;
        return made;
    }

    function show({ title, lines, readings, unit, ground, ink, soft, accent }) {
        shown = document.createElement("section");
        shown.id = "glimpse";
        shown.style.cssText = "position:fixed;inset:0;z-index:1;pointer-events:none;box-sizing:border-box;padding:20px 16px 88px;" +
            `display:flex;flex-direction:column;gap:12px;background:${ground};color:${ink};font:20px/1.3 system-ui,sans-serif;overflow:hidden`;
        shown.append(line(title, "font-size:18px", "h1"));
        const rest = document.createElement("div");
        rest.style.cssText = readings ? "margin-top:auto" : "display:grid;gap:8px";
        rest.append(...lines.map((text) => line(text, "font-size:22px;font-weight:600")));
        if (readings) {
            const zone = document.createElement("div");
            zone.style.cssText = "display:grid;grid-template-columns:repeat(auto-fit,minmax(300px,1fr));gap:4px 48px;margin-top:8px";
            zone.append(...readings.map(([label, value]) => {
                const one = document.createElement("div");
                one.style.cssText = "display:flex;justify-content:space-between;align-items:baseline;gap:16px";
                const size = "font-size:clamp(44px,min(19vw,22vh),88px);line-height:1.15;font-weight:600;white-space:nowrap";
                const read = line(`${value} `, `${size};color:${accent}`);
                read.append(line(unit, `font-size:20px;font-weight:400;color:${soft}`, "span"));
                one.append(line(label, `font-size:20px;color:${soft}`), read);
                return one;
            }));
            rest.append(zone);
        }
        shown.append(rest);
        document.body.prepend(shown);
        // What first.js says may come a moment later. It puts it away with the first frame; here it is not yet live, so it stays.
        const below = () => {
            starting = document.getElementById("starting");
            if (starting) Object.assign(starting.style, { top: "auto", bottom: "24px", color: ink, zIndex: 2 });
        };
        below();
        addEventListener("DOMContentLoaded", below, { once: true });
        (globalThis.startTimes ??= { page: performance.timeOrigin }).glimpse = performance.timeOrigin + performance.now();
    }

    async function begin() {
        const kept = JSON.parse(localStorage.getItem(KEY));
        const here = location.pathname.slice(BASE.length - 1);
        if (!kept || !["/", kept.route].includes(here) || !(await still(kept.of))) return;
        if (!document.body) await new Promise((resolve) => addEventListener("DOMContentLoaded", resolve, { once: true }));
        if (!over) show(kept);
    }
    begin().catch(() => {});        // a private window keeps nothing
})();
