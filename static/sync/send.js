import { phrase } from "../language/phrase.js";
import { listen } from "../record/changes.js";
import { readSetting, StorageError, writeSettings } from "../record/database.js";
import { summary } from "../record/outbox.js";
import { removeAcceptedPhotos } from "../record/photos.js";
import { ApiError, LONGEST_WAIT, openSession } from "./api.js";
import { deliverEvents, deliverPhotos, deliverRecords, deliverVisits } from "./deliver.js";
import { fetchEvents, fetchWork, reportHeld } from "./fetch.js";

const AFTER_SAVE = 2_000;
const FETCH_EVERY = 60_000;
// The first is short: a network that says it is back often needs a moment more.
const PAUSES = [1_000, 5_000, 15_000, 60_000, 300_000];

/** @type {Set<(progress: SendProgress) => void>} */
const listeners = new Set();

/** @type {SendProgress} */
let progress = { state: "idle", code: null, message: "" };

/** Until when the server wants to be left alone by what is sent without being asked. */
let quietUntil = 0;

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

/** Kept for the pages that follow as well. @param {number} until */
function keepQuiet(until) {
  quietUntil = until;
  writeSettings({ quietUntil }).catch((error) => console.warn("quiet", error));
}

/** A clock that was set back since must not make the phone silent for days. */
async function quietFor() {
  const left = Math.max(quietUntil, (await readSetting("quietUntil").catch(() => 0)) ?? 0) - Date.now();
  return left > 0 && left <= LONGEST_WAIT ? left : 0;
}

/** @param {unknown} error */
function reportError(error) {
  if (error instanceof ApiError) {
    if (error.wait > 0) keepQuiet(Date.now() + error.wait);
    const states = { offline: "offline", signed_out: "signed_out", later: "stopped", refused: "stopped" };
    return report(/** @type {SendState} */ (states[error.kind]), error.code, error.message);
  }
  if (error instanceof StorageError) return report("stopped", error.code, error.message);
  console.error(error);
  return report("stopped", "unexpected", phrase("Sending stopped. Everything is kept on this phone; reload the page to try again."));
}

async function fetchAll() {
  // A notice for the office; whatever comes of it, the work is fetched.
  await reportHeld().catch((error) => console.warn("held", error));
  await fetchWork();
  await fetchEvents();
  await removeAcceptedPhotos();
  await writeSettings({ fetchedAt: Date.now() });
}

async function isFetchDue() {
  return Date.now() - ((await readSetting("fetchedAt")) ?? 0) > FETCH_EVERY;
}

/** @param {boolean} isAsked whether a person asked for it */
async function run(isAsked) {
  const person = await readSetting("person");
  if (!person) return report("stopped", "not_prepared", phrase("Prepare this phone before it can send."));
  report("sending");
  const session = await openSession();
  if (session.person.id !== person.id) {
    const message = phrase("{name} is signed in, but this phone was prepared for {name2}. Sign in as {name2} to send.", { name: session.person.name, name2: person.name });
    return report("other_person", "other_person", message);
  }
  await deliverVisits(person.id);
  await deliverEvents(person.id);
  // Before the photos: on a weak signal the text of both directions goes first.
  if (isAsked || (await isFetchDue())) await fetchAll();
  await deliverPhotos(person.id);
  await deliverRecords(person.id);
  const left = await summary();
  if (left.visits + left.events + left.photos + left.records === 0) {
    await writeSettings({ receivedAt: new Date().toISOString() });
  }
  if ((await quietFor()) > 0) keepQuiet(0); // somebody asked, and the server had time again
  return report("done");
}

/** @param {boolean} isAsked */
async function runSafely(isAsked) {
  try {
    return await run(isAsked);
  } catch (error) {
    return reportError(error);
  }
}

/**
 * One run at a time over all windows of the app.
 * @param {boolean} isAsked
 * @returns {Promise<SendProgress>}
 */
function runAlone(isAsked) {
  return navigator.locks.request("firstwater-send", { ifAvailable: true }, (lock) =>
    lock ? runSafely(isAsked) : report("elsewhere", "elsewhere", phrase("Another window of this app is sending.")),
  );
}

/** @type {Promise<SendProgress> | null} */
let running = null;

/**
 * Send what waits and fetch what is new, unless this or another window is doing so.
 *
 * Never rejects: the answer says how it ended. Nothing leaves the phone's storage; each thing is marked as received
 * when the server has returned the hash of what it stored.
 * @param {{isAsked?: boolean}} [options] `isAsked: false` fetches what is new only once a minute
 * @returns {Promise<SendProgress>}
 */
export function sendNow({ isAsked = true } = {}) {
  running ??= runAlone(isAsked).finally(() => {
    running = null;
  });
  return running;
}

let failures = 0;
let isNewsWaiting = false;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

/** @param {number} delay */
function sendAfter(delay) {
  clearTimeout(timer);
  timer = setTimeout(sendAndPlan, delay);
}

/** Soon after the first failure, then less and less often, and no two phones in step. */
function pauseAfter() {
  const pause = failures === 0 ? PAUSES.at(-1) : PAUSES[Math.min(failures, PAUSES.length) - 1];
  return /** @type {number} */ (pause) * (0.75 + Math.random() / 2);
}

async function sendAndPlan() {
  if (document.visibilityState === "hidden") return;
  // Never before the server's own Retry-After has passed.
  const quiet = await quietFor();
  if (quiet > 0) return sendAfter(quiet);
  isNewsWaiting = false;
  const isJoined = running !== null;
  const { state } = await sendNow({ isAsked: false });
  // The attempt began before what woke this one, perhaps the network's return: its failure says nothing any more.
  if (isJoined && state === "offline") return sendAfter(0);
  failures = state === "done" ? 0 : failures + 1;
  sendAfter(isNewsWaiting ? AFTER_SAVE : pauseAfter());
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
  // Only what a person did here: two windows that answered each other's sending would never stop.
  listen((_, cause) => {
    if (cause !== "entry") return;
    isNewsWaiting = true;
    if (progress.state !== "sending") sendAfter(AFTER_SAVE);
  });
  sendAtOnce();
}
