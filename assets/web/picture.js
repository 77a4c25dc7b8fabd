// The code in a picture of a chalk sheet, for Python in the worker. The picture is made smaller first, so that a phone's
// camera of many megapixels takes no more time and memory than one of two; where nothing is found it is tried once more
// with more of its pixels.
import decodeQR from "./vendor/qr/decode.js";

const SIDES = [1200, 2400];             // pixels of the longer side; our choice

async function pixels(bytes, side) {
    const bitmap = await createImageBitmap(new Blob([bytes]));
    const scale = Math.min(1, side / Math.max(bitmap.width, bitmap.height));
    const width = Math.max(1, Math.round(bitmap.width * scale)), height = Math.max(1, Math.round(bitmap.height * scale));
    const canvas = new OffscreenCanvas(width, height).getContext("2d", { willReadFrequently: true });
    canvas.fillStyle = "white";         // behind a picture that can be seen through
    canvas.fillRect(0, 0, width, height);
    canvas.drawImage(bitmap, 0, 0, width, height);
    bitmap.close();
    return { ...{ width, height }, data: canvas.getImageData(0, 0, width, height).data };
}

// What the code says; "" where none is found or the browser does not know this kind of picture.
export async function read(bytes) {
    for (const side of SIDES) {
        try {
            return decodeQR(await pixels(bytes, side));
        } catch (trouble) {
            console.info(`no code at ${side} px: ${trouble?.message ?? trouble}`);
        }
    }
    return "";
}
