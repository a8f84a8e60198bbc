// A worker that finds codes in pictures, for browsers that cannot themselves. It runs apart from every page because
// compiling WebAssembly needs a policy that no page has: webapp/security.py gives it to this script alone. Classic and
// not a module, since its library sets a global.

const LIBRARY = "/static/vendor/zxing-wasm/";

const reader = /** @type {DedicatedWorkerGlobalScope} */ (/** @type {unknown} */ (self));

reader.importScripts(`${LIBRARY}index.js`);

const { prepareZXingModule, readBarcodes } = /** @type {any} */ (reader).ZXingWASM;

// Without this the library asks a public server for its other half.
prepareZXingModule({ overrides: { locateFile: (/** @type {string} */ file) => LIBRARY + file } });

const OPTIONS = {
  formats: ["QRCode", "MicroQRCode", "DataMatrix", "Code128", "Code39", "EAN13", "EAN8", "UPCA", "ITF", "DataBar", "PDF417", "Aztec"],
  textMode: "Plain",
  maxNumberOfSymbols: 4,
  tryHarder: true,
};

reader.onmessage = async ({ data: { number, picture } }) => {
  try {
    const found = await readBarcodes(picture, OPTIONS);
    const codes = found
      .filter((/** @type {any} */ one) => one.isValid)
      .map((/** @type {any} */ one) => ({ text: one.text, format: one.format, isGS1: one.contentType === "GS1" }));
    reader.postMessage({ number, codes });
  } catch (error) {
    reader.postMessage({ number, problem: String(error) });
  }
};
