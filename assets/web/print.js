// Shows a PDF in the browser's print view. A phone's browser shows no PDF within a page: there it answers false, and the
// file is saved instead.
(globalThis.pageDoes ??= {}).print = (bytes) => new Promise((resolve) => {
    if (!navigator.pdfViewerEnabled || matchMedia("(pointer: coarse)").matches) return resolve(false);
    document.getElementById("to-print")?.remove();
    const frame = document.createElement("iframe");
    frame.id = "to-print";
    frame.title = "Print";
    frame.tabIndex = -1;
    frame.ariaHidden = "true";
    frame.style.cssText = "position:fixed;right:0;bottom:0;width:1px;height:1px;border:0;opacity:0";
    const gaveUp = setTimeout(() => resolve(false), 10_000);
    frame.onload = () => {
        clearTimeout(gaveUp);
        try {
            frame.contentWindow.focus();
            frame.contentWindow.print();
            resolve(true);
        } catch {
            resolve(false);         // a browser that shows a PDF in a page of its own lets no other one print it
        }
    };
    frame.src = URL.createObjectURL(new Blob([bytes], { type: "application/pdf" }));
    document.body.append(frame);
});
