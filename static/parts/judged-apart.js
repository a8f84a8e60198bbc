import { language } from "../language/phrase.js";
import { outlineWorkerAddress } from "./trusted.js";

/** @type {Worker | null | undefined} null where it does not start */
let worker;

/** @type {Map<string, (outline: Outline | null) => void>} */
const waiting = new Map();

/** In a browser whose workers know no modules, on the page itself. @param {string} id */
async function here(id) {
  const { outlineOfVisit } = await import("./outline-of-visit.js");
  return outlineOfVisit(id).catch(() => null);
}

function giveUp() {
  worker = null;
  for (const [id, answer] of waiting) here(id).then(answer);
  waiting.clear();
}

function start() {
  if (worker !== undefined) return;
  try {
    worker = new Worker(/** @type {any} */ (outlineWorkerAddress()), { type: "module", name: language });
    worker.onerror = giveUp;
    worker.onmessage = ({ data: { id, outline } }) => {
      waiting.get(id)?.(outline);
      waiting.delete(id);
    };
  } catch {
    worker = null;
  }
}

/**
 * How far a visit is, judged beside the page; null where it cannot be judged.
 * @param {string} id
 * @returns {Promise<Outline | null>}
 */
export function judgedApart(id) {
  start();
  if (!worker) return here(id);
  worker.postMessage(id);
  return new Promise((resolve) => waiting.set(id, resolve));
}
