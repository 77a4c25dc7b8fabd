// Goes behind the drawing client's own script for a screen that stays awake, when a server serves the app: that script
// does not ask again for what the browser let go of while the page was out of sight.
(() => {
    if (!("wakeLock" in navigator)) return;     // it plays a film instead, which goes on by itself
    const toggle = Wakelock.toggle;
    let wanted = false;
    Wakelock.toggle = (on) => {
        wanted = on;
        return toggle(on);
    };
    document.addEventListener("visibilitychange", () => {
        if (wanted && document.visibilityState === "visible") toggle(true).catch(() => {});
    });
})();
