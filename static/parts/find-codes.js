// Codes in a picture, by the browser's own reader where it has one, else by the worker.

import { phrase } from "../language/phrase.js";
import { codeReaderAddress } from "./trusted.js";

/** @typedef {{text: string, format: string, isGS1: boolean}} Code */

const WANTED = ["qr_code", "data_matrix", "code_128", "code_39", "ean_13"];
const LONG_SIDE = 1600;
const PATIENCE = 30_000;

/** The reader of codes is neither in this browser nor on this phone. */
export class NoReader extends Error {
  constructor() {
    super(phrase("This phone cannot read codes yet. Type the code, or prepare the phone again while there is signal."));
    this.name = "NoReader";
    this.code = "no_code_reader";
  }
}

/** @type {Promise<any> | null} */
let own = null;

async function makeOwnReader() {
  const Detector = /** @type {any} */ (globalThis).BarcodeDetector;
  const formats = (await Detector?.getSupportedFormats?.()) ?? [];
  return WANTED.every((format) => formats.includes(format)) ? new Detector({ formats: WANTED }) : null;
}

/**
 * The browser's own reader (Barcode Detection API), null without one or where it lacks a format.
 * @returns {Promise<any>}
 */
function ownReader() {
  own ??= makeOwnReader().catch((error) => {
    console.warn("BarcodeDetector", error);
    return null;
  });
  return own;
}

/** Whether this browser needs no reader of ours. */
export const readsCodes = async () => (await ownReader()) !== null;

/** @type {Worker | null} */
let worker = null;
let asked = 0;

/** @param {ImageData} picture @returns {Promise<Code[]>} */
function askWorker(picture) {
  worker ??= new Worker(/** @type {any} */ (codeReaderAddress()));
  const reader = worker;
  const number = ++asked;
  return new Promise((resolve, reject) => {
    const stop = new AbortController();
    const give = (/** @type {() => void} */ answer) => {
      clearTimeout(timer);
      stop.abort();
      answer();
    };
    const fail = () =>
      give(() => {
        reader.terminate();
        worker = null;
        reject(new NoReader());
      });
    const timer = setTimeout(fail, PATIENCE);
    reader.addEventListener("error", fail, { signal: stop.signal });
    reader.addEventListener(
      "message",
      ({ data }) => {
        if (data.number !== number) return;
        if (data.problem) fail();
        else give(() => resolve(data.codes));
      },
      { signal: stop.signal },
    );
    reader.postMessage({ number, picture });
  });
}

/** @param {CanvasImageSource} source @param {number} width @param {number} height */
function pixelsOf(source, width, height) {
  const scale = Math.min(1, LONG_SIDE / Math.max(width, height));
  const [wide, high] = [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
  const canvas = new OffscreenCanvas(wide, high);
  const context = /** @type {OffscreenCanvasRenderingContext2D} */ (canvas.getContext("2d", { willReadFrequently: true }));
  context.drawImage(source, 0, 0, wide, high);
  return context.getImageData(0, 0, wide, high);
}

/**
 * The codes in a frame of a video or in a bitmap; none is no error. Rejects with `NoReader`.
 * @param {CanvasImageSource} source
 * @param {number} width
 * @param {number} height
 * @returns {Promise<Code[]>}
 */
export async function codesIn(source, width, height) {
  const found = await detected(source);
  if (found === null) return askWorker(pixelsOf(source, width, height));
  return found.map((/** @type {any} */ one) => ({ text: one.rawValue, format: one.format, isGS1: false }));
}

/**
 * What the browser's own reader finds; null where there is none or where it fails, and then it is not asked again.
 * @param {CanvasImageSource} source
 */
async function detected(source) {
  const reader = await ownReader();
  if (reader === null) return null;
  try {
    return await reader.detect(source);
  } catch (error) {
    console.warn("BarcodeDetector.detect", error);
    own = Promise.resolve(null);
    return null;
  }
}

/**
 * The codes in a photo. Rejects with `NoReader`, or with `not_a_picture`.
 * @param {Blob} file
 */
export async function codesInPhoto(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => {
    throw Object.assign(new Error(phrase("This file could not be read as a picture. Take the photo again.")), { code: "not_a_picture" });
  });
  try {
    return await codesIn(picture, picture.width, picture.height);
  } finally {
    picture.close();
  }
}
