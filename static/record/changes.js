// Tells the parts of this page, and the app's other windows, that something stored has changed.

const NAME = "firstwater-changes";

/**
 * Who changed it: a person on this page, the sending on this page, or another window.
 * @typedef {"entry" | "sending" | "elsewhere"} Cause
 */

/** @type {Set<(visit: string | null, cause: Cause) => void>} */
const listeners = new Set();

/** @type {BroadcastChannel | null} */
let channel = null;

/** @param {string | null} visit @param {Cause} cause */
function tellThisPage(visit, cause) {
  for (const listener of listeners) listener(visit, cause);
}

function openChannel() {
  if (channel !== null) return;
  channel = new BroadcastChannel(NAME);
  channel.onmessage = (message) => tellThisPage(message.data.visit, "elsewhere");
}

// An open channel keeps a left page out of the browser's back and forward cache.
addEventListener("pagehide", () => {
  channel?.close();
  channel = null;
});
addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  openChannel();
  tellThisPage(null, "elsewhere");
});

/**
 * Say that a visit changed; null: something that belongs to no single visit.
 * @param {string | null} visit
 * @param {Cause} [cause]
 */
export function announce(visit, cause = "entry") {
  openChannel();
  channel?.postMessage({ visit });
  tellThisPage(visit, cause);
}

/**
 * @param {(visit: string | null, cause: Cause) => void} listener
 * @returns {() => void} stops listening
 */
export function listen(listener) {
  openChannel();
  listeners.add(listener);
  return () => listeners.delete(listener);
}
