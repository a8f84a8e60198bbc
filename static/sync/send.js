import { listen } from "../record/changes.js";
import { readSetting, StorageError, writeSettings } from "../record/database.js";
import { summary } from "../record/outbox.js";
import { ApiError, openSession } from "./api.js";
import { deliverEvents, deliverPhotos, deliverRecords, deliverVisits } from "./deliver.js";
import { fetchEvents, fetchWork } from "./fetch.js";

const AFTER_SAVE = 2_000;
const PAUSES = [5_000, 15_000, 60_000, 300_000];

/** @type {Set<(progress: SendProgress) => void>} */
const listeners = new Set();

/** @type {SendProgress} */
let progress = { state: "idle", code: null, message: "" };

/** @param {SendState} state @param {string | null} [code] @param {string} [message] */
function report(state, code = null, message = "") {
  progress = { state, code, message };
  for (const listener of listeners) listener(progress);
  return progress;
}

/**
 * Hear how the sending goes, at once and with each change.
 * @param {(progress: SendProgress) => void} listener
 * @returns {() => void} stops listening
 */
export function onProgress(listener) {
  listeners.add(listener);
  listener(progress);
  return () => listeners.delete(listener);
}

/** @param {unknown} error */
function reportError(error) {
  if (error instanceof ApiError) {
    const states = { offline: "offline", signed_out: "signed_out", later: "stopped", refused: "stopped" };
    return report(/** @type {SendState} */ (states[error.kind]), error.code, error.message);
  }
  if (error instanceof StorageError) return report("stopped", error.code, error.message);
  console.error(error);
  return report("stopped", "unexpected", "Sending stopped. Everything is kept on this phone; reload the page to try again.");
}

async function run() {
  const person = await readSetting("person");
  if (!person) return report("stopped", "not_prepared", "Prepare this phone before it can send.");
  report("sending");
  const session = await openSession();
  if (session.person.id !== person.id) {
    const message = `${session.person.name} is signed in, but this phone was prepared for ${person.name}. Sign in as ${person.name} to send.`;
    return report("other_person", "other_person", message);
  }
  await deliverVisits(person.id);
  await deliverEvents(person.id);
  await fetchWork();
  await deliverPhotos(person.id);
  await deliverRecords(person.id);
  await fetchEvents();
  const left = await summary();
  if (left.visits + left.events + left.photos + left.records === 0) {
    await writeSettings({ receivedAt: new Date().toISOString() });
  }
  return report("done");
}

async function runSafely() {
  try {
    return await run();
  } catch (error) {
    return reportError(error);
  }
}

/**
 * Send what waits and fetch what is new, unless this or another window is doing so.
 *
 * Never rejects: the answer says how it ended. Nothing leaves the phone's storage; each thing is marked as received
 * when the server has returned the hash of what it stored.
 * @returns {Promise<SendProgress>}
 */
export function sendNow() {
  return navigator.locks.request("firstwater-send", { ifAvailable: true }, (lock) => (lock ? runSafely() : progress));
}

let failures = 0;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

/** @param {number} delay */
function sendAfter(delay) {
  clearTimeout(timer);
  timer = setTimeout(sendAndPlan, delay);
}

/** Plan the next try while something waits: soon at first, then less and less often, never two phones in step. */
async function sendAndPlan() {
  if (document.visibilityState === "hidden") return;
  const { state } = await sendNow();
  failures = state === "done" ? 0 : failures + 1;
  const pause = PAUSES[Math.min(failures, PAUSES.length) - 1] ?? PAUSES[PAUSES.length - 1];
  sendAfter(pause * (0.75 + Math.random() / 2));
}

function sendAtOnce() {
  failures = 0;
  sendAfter(0);
}

let isStarted = false;

/**
 * From now on send without being asked: at once, with the network's return, when the page is shown again, shortly
 * after each saved entry, and by a timer. `navigator.onLine` is not asked: it is true in a Wi-Fi without a server.
 */
export function startSending() {
  if (isStarted) return;
  isStarted = true;
  addEventListener("online", sendAtOnce);
  addEventListener("pageshow", (event) => event.persisted && sendAtOnce());
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && sendAtOnce());
  listen(() => {
    if (progress.state !== "sending") sendAfter(AFTER_SAVE);
  });
  sendAtOnce();
}
