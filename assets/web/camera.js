// The camera, held over the code on a chalk sheet. The picture never leaves the page: frames are read until a code is found.
(() => {
    const EVERY = 200;                  // ms between two looks; our choice
    const BUTTON = "position:absolute;left:16px;right:16px;bottom:calc(16px + env(safe-area-inset-bottom));min-height:56px;" +
        "border:0;border-radius:8px;background:#f3c63f;color:#1d1a16;font:18px/1.3 system-ui,sans-serif";

    function shown(video, name, words) {
        const cover = document.createElement("div");
        cover.id = "camera";
        cover.role = "dialog";
        cover.ariaModal = "true";
        cover.ariaLabel = name;
        cover.style.cssText = "position:fixed;inset:0;z-index:99998;background:#1d1a16";
        video.style.cssText = "width:100%;height:100%;object-fit:contain";
        const close = document.createElement("button");
        close.textContent = words;
        close.style.cssText = BUTTON;
        cover.append(video, close);
        document.body.append(cover);
        close.focus();
        return { cover, close };
    }

    // What the code says; "" where the person has closed it, null where there is no camera or it may not be used.
    (globalThis.pageDoes ??= {}).readCamera = async (name, words) => {
        if (!navigator.mediaDevices?.getUserMedia) return null;
        const { readFrame } = await import(new URL("picture.js", document.baseURI));
        let stream;
        try {
            stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment", width: { ideal: 1280 } } });
        } catch {
            return null;
        }
        const video = document.createElement("video");
        video.muted = video.playsInline = true;
        video.srcObject = stream;
        const { cover, close } = shown(video, name, words);
        let closed = false;
        close.onclick = () => (closed = true);
        cover.onkeydown = (event) => (closed ||= event.key === "Escape");
        try {
            await video.play();
            while (!closed) {
                const found = await readFrame(video);
                if (found) return found;
                await new Promise((resolve) => setTimeout(resolve, EVERY));
            }
            return "";
        } finally {
            stream.getTracks().forEach((track) => track.stop());
            cover.remove();
        }
    };
})();
