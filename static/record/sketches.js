// A signature while it is drawn: kept on this phone alone, until it is signed or cleared. It is no entry before that.

import { transact } from "./database.js";

/** @typedef {{name: string, role: string, why: string, stated: boolean, strokes: number[][]}} Sketch */

/** @param {string} visit @param {string} field */
const nameOf = (visit, field) => `sketch ${visit} ${field}`;

/**
 * @param {string} visit @param {string} field
 * @returns {Promise<Sketch | undefined>}
 */
export function sketchOf(visit, field) {
  return transact(["settings"], "readonly", (transaction) => transaction.objectStore("settings").get(nameOf(visit, field)));
}

/**
 * Durable when the promise resolves; null takes it away.
 * @param {string} visit @param {string} field @param {Sketch | null} sketch
 */
export function keepSketch(visit, field, sketch) {
  return transact(["settings"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("settings");
    if (sketch === null) await store.delete(nameOf(visit, field));
    else await store.put(sketch, nameOf(visit, field));
  });
}
