// What the chalk screen asks of the page: a voice of the device's own, and a screen that does not go dark meanwhile.
(() => {
    const does = (globalThis.pageDoes ??= {});
    const PATIENCE = 1500;          // some browsers find their voices a moment after they are first asked

    function usable() {             // a voice that is somewhere else is none without a network
        return speechSynthesis.getVoices().filter((voice) => voice.localService || navigator.onLine);
    }

    function voices() {
        if (usable().length) return Promise.resolve(usable());
        return new Promise((resolve) => {
            const found = () => resolve(usable());
            setTimeout(found, PATIENCE);
            speechSynthesis.addEventListener?.("voiceschanged", found, { once: true });
        });
    }

    // Says the words, and what was being said no more; without words it only stops. Answers "spoken" or "no_voice".
    let asked = 0;
    does.speak = async (words) => {
        if (!globalThis.speechSynthesis) return words ? "no_voice" : "spoken";
        const mine = ++asked;
        speechSynthesis.cancel();
        if (!words) return "spoken";
        const all = await voices();
        if (mine !== asked) return "spoken";        // something newer is to be said
        const english = all.filter((voice) => voice.lang.toLowerCase().startsWith("en"));
        const voice = english.find((one) => one.localService) ?? english[0] ?? all[0];
        if (!voice) return "no_voice";
        const saying = new SpeechSynthesisUtterance(words);
        saying.voice = voice;
        saying.lang = voice.lang;
        saying.rate = 0.9;          // our choice: numbers are to be kept in mind
        speechSynthesis.speak(saying);
        return "spoken";
    };

    // Keeps the screen awake, or lets it sleep again. A browser lets go of it while the page is out of sight.
    let wanted = false;
    let held = null;
    async function hold() {
        if (!wanted || held || document.visibilityState !== "visible") return;
        const lock = await navigator.wakeLock.request("screen");
        if (!wanted) return lock.release();
        held = lock;
        held.addEventListener("release", () => (held = null));
    }
    document.addEventListener("visibilitychange", () => hold().catch(() => {}));
    does.stayAwake = async (on) => {
        wanted = on;
        try {
            if (on) await hold();
            else await held?.release();
        } catch {
            return false;
        }
        if (!on) held = null;
        return true;
    };
})();
