// The only two ways by which a text becomes markup or the address of a script: under Trusted Types the browser
// refuses every other one (W3C, Trusted Types; the policy's name stands in webapp/security.py).

const WORKER = "/sw.js";
const WORKERS = [WORKER, `${WORKER}?lang=de`];
const CODE_READER = "/static/scanning/reader.js";
const OUTLINES = "/static/parts/outline-worker.js";
const SCRIPTS = [...WORKERS, CODE_READER, OUTLINES];

// What our own templates never hold: elements that load or run something, and attributes that do.
const NEVER = /<\s*(script|iframe|frame|object|embed|link|meta|base|style|template|svg|img|video|audio)\b|<[^>]*\s(on\w+|srcdoc|style)\s*=|<[^>]*javascript:/i;

const rules = {
  /** @param {string} text */
  createHTML(text) {
    if (NEVER.test(text)) throw new TypeError("This markup is not one of our own templates.");
    return text;
  },
  /** @param {string} address */
  createScriptURL(address) {
    if (!SCRIPTS.includes(address)) throw new TypeError(`${address} is no script of ours.`);
    return address;
  },
};

/** @type {typeof rules} browsers without Trusted Types get the same checks */
const policy = /** @type {any} */ (window).trustedTypes?.createPolicy("firstwater", rules) ?? rules;

/**
 * Fill an element with markup of our own: formulas and forms that the build has made, with values escaped.
 * @param {Element} place
 * @param {string} text
 */
export function fillWith(place, text) {
  place.innerHTML = policy.createHTML(text);
}

/** The service worker's address, as the browser asks for it: one for each language. @param {string} language */
export function workerAddress(language) {
  return policy.createScriptURL(language === "en" ? WORKER : `${WORKER}?lang=${language}`);
}

/** The address of the worker that reads codes. */
export function codeReaderAddress() {
  return policy.createScriptURL(CODE_READER);
}

/** The address of the worker that judges beside the page. */
export function outlineWorkerAddress() {
  return policy.createScriptURL(OUTLINES);
}
