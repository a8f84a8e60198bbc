// Tells the parts of this page, and the app's other windows, that something stored has changed.

const NAME = "firstwater-changes";

/** @type {Set<(visit: string | null) => void>} */
const listeners = new Set();

/** @type {BroadcastChannel | null} */
let channel = null;

/** @param {string | null} visit */
function tellThisPage(visit) {
  for (const listener of listeners) listener(visit);
}

function openChannel() {
  if (channel !== null) return;
  channel = new BroadcastChannel(NAME);
  channel.onmessage = (message) => tellThisPage(message.data.visit);
}

// An open channel keeps a left page out of the browser's back and forward cache.
addEventListener("pagehide", () => {
  channel?.close();
  channel = null;
});
addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  openChannel();
  tellThisPage(null);
});

/**
 * Say that a visit changed; null: something that belongs to no single visit.
 * @param {string | null} visit
 */
export function announce(visit) {
  openChannel();
  channel?.postMessage({ visit });
  tellThisPage(visit);
}

/**
 * @param {(visit: string | null) => void} listener
 * @returns {() => void} stops listening
 */
export function listen(listener) {
  openChannel();
  listeners.add(listener);
  return () => listeners.delete(listener);
}
