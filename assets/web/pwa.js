// Registers the service worker once the app is on the screen, and offers a new version without forcing it on anyone.
(() => {
    if (!("serviceWorker" in navigator)) return;
    const workers = navigator.serviceWorker;
    const hadOne = Boolean(workers.controller);
    const HOUR = 3600_000;
    let asked = false;      // did this tab ask for the new version

    function offer(words, act) {
        document.getElementById("new-version")?.remove();
        const button = document.createElement("button");
        button.id = "new-version";
        button.textContent = words;
        button.style.cssText = "position:fixed;left:8px;right:8px;top:calc(8px + env(safe-area-inset-top));z-index:9999;" +
            "min-height:48px;padding:8px 16px;border:1px solid #1d1a16;border-radius:8px;background:#f3c63f;color:#1d1a16;" +
            "font:16px/1.3 system-ui,sans-serif";
        button.onclick = () => {
            button.remove();
            act();
        };
        document.body.append(button);
    }

    function offerWaiting(registration) {
        if (!registration.waiting || !hadOne) return;
        offer("A new version is here. Tap to change to it; your work stays.", () => {
            asked = true;
            registration.waiting?.postMessage("take over");
        });
    }

    function watch(registration) {
        const worker = registration.installing;
        worker?.addEventListener("statechange", () => {
            if (worker.state === "installed") offerWaiting(registration);
        });
    }

    async function register() {
        const registration = await workers.register(new URL("service-worker.js", document.baseURI), { updateViaCache: "none" });
        offerWaiting(registration);
        watch(registration);
        registration.addEventListener("updatefound", () => watch(registration));
        const look = () => registration.update().catch(() => {});     // without a network there is nothing to find
        if (hadOne) setTimeout(look, 3000);
        setInterval(look, HOUR);
        document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && look());
        await workers.ready;
        document.documentElement.dataset.offline = "ready";
        navigator.storage?.persist?.();
    }

    workers.addEventListener("controllerchange", () => {
        if (!hadOne) return;
        if (asked) location.reload();
        else offer("Another tab changed to a new version. Tap to load it here too; your work stays.", () => location.reload());
    });

    // The browser may offer to install the page. It is asked from the app's page of backups, where a backup comes first,
    // because what is installed may begin empty.
    let offered = null;
    addEventListener("beforeinstallprompt", (event) => {
        event.preventDefault();
        offered = event;
    });
    addEventListener("appinstalled", () => (offered = null));
    (globalThis.pageDoes ??= {}).installs = async (now) => {
        const asking = offered;
        if (now && asking) {
            offered = null;         // it can be asked once; the browser offers another
            await asking.prompt();
            await asking.userChoice;
        }
        return offered ? "asks" : navigator.standalone === false ? "by_hand" : "no";
    };

    // The first visit fetches the files for the screen first; the service worker then finds them in the browser's cache.
    let begun = false;
    const begin = () => {
        if (begun) return;
        begun = true;
        register().catch((trouble) => console.warn("The site is not kept for offline use:", trouble));
    };
    addEventListener("flutter-first-frame", () => setTimeout(begin, 1500), { once: true });
    setTimeout(begin, hadOne ? 5000 : 20000);
})();
