// The code in a picture of a chalk sheet, for Python in the worker. The picture is made smaller first, so that a phone's
// camera of many megapixels takes no more time and memory than one of two; where nothing is found it is tried once more
// with more of its pixels.
import decodeQR from "./vendor/qr/decode.js";

const SIDES = [1200, 2400];             // pixels of the longer side; our choice

function pixels(picture, wide, high, side) {
    const scale = Math.min(1, side / Math.max(wide, high));
    const width = Math.max(1, Math.round(wide * scale)), height = Math.max(1, Math.round(high * scale));
    const canvas = new OffscreenCanvas(width, height).getContext("2d", { willReadFrequently: true });
    canvas.fillStyle = "white";         // behind a picture that can be seen through
    canvas.fillRect(0, 0, width, height);
    canvas.drawImage(picture, 0, 0, width, height);
    return { width, height, data: canvas.getImageData(0, 0, width, height).data };
}

// What the code in a frame of the camera says; "" where none is found.
export async function readFrame(video) {
    try {
        return decodeQR(pixels(video, video.videoWidth, video.videoHeight, SIDES[0]));
    } catch {
        return "";                      // most frames have none
    }
}

// What the code says; "" where none is found or the browser does not know this kind of picture.
export async function read(bytes) {
    for (const side of SIDES) {
        try {
            const bitmap = await createImageBitmap(new Blob([bytes]));
            const { width, height, data } = pixels(bitmap, bitmap.width, bitmap.height, side);
            bitmap.close();
            return decodeQR({ width, height, data });
        } catch (trouble) {
            console.info(`no code at ${side} px: ${trouble?.message ?? trouble}`);
        }
    }
    return "";
}
