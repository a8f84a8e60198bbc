import { inLanguage, phrase, phrases } from "../language/phrase.js";
import { listen } from "../record/changes.js";
import { readSetting } from "../record/database.js";
import { summary } from "../record/outbox.js";
import { make, say } from "./element.js";
import { moment } from "./words.js";

/** Not among what a page needs before it can be used. */
const sending = () => import("../sync/send.js");

/** The number stays with its thing at the end of a line. @param {string} text */
const together = (text) => text.replace(" ", "\u00a0");

/** What is only on this phone, in words; null when nothing is. @param {OutboxSummary} outbox */
export function onlyHere({ visits, events, photos, records }) {
  const parts = [
    events ? together(phrases("{count} entry", "{count} entries", events)) : null,
    photos ? together(phrases("{count} photo", "{count} photos", photos)) : null,
    records ? together(phrases("{count} signed record", "{count} signed records", records)) : null,
    events + photos + records === 0 && visits ? together(phrases("{count} visit", "{count} visits", visits)) : null,
  ];
  return parts.filter(Boolean).join(", ") || null;
}

/** @param {OutboxSummary} outbox */
function sentence(outbox) {
  const waiting = onlyHere(outbox);
  if (waiting && outbox.savedAt) return phrase("Saved on this phone {short_time} - {waiting} only here", { short_time: moment(outbox.savedAt), waiting });
  if (waiting) return phrase("{waiting} only on this phone", { waiting });
  if (outbox.receivedAt) return phrase("Everything received by the server {short_time}", { short_time: moment(outbox.receivedAt) });
  return phrase("Nothing waits on this phone");
}

/** Nothing calms while what was typed last is on the screen alone. @param {HTMLElement} line @param {OutboxSummary} outbox @param {boolean} isStored */
function showText(line, outbox, isStored) {
  if (isStored) return say(line, sentence(outbox));
  line.replaceChildren(phrase("Not stored: what you typed last is on the screen only."), " ", make("a", { href: "#not-stored" }, phrase("What to do")));
}

/** @param {HTMLElement} line @param {OutboxSummary} outbox */
function showProblems(line, { problems }) {
  line.hidden = problems === 0;
  const link = make("a", { href: inLanguage("/field/attention") }, phrases("{count} needs attention", "{count} need attention", problems));
  line.replaceChildren(link);
}

/** Without the server for so many days a phone is behind with everything. */
export const LONG = 7;

/** Whole days since this phone last heard of the server; 0 when it never did. */
export async function daysAlone() {
  const fetchedAt = (await readSetting("fetchedAt")) ?? Date.now();
  return Math.floor((Date.now() - fetchedAt) / 86_400_000);
}

/** @param {HTMLElement} line */
async function showOffline(line) {
  const days = await daysAlone().catch(() => 0);
  if (days < LONG) return say(line, phrase("No server in reach"));
  line.replaceChildren(make("a", { href: inLanguage("/field/attention") }, phrases("{count} day without the server", "{count} days without the server", days)));
}

/**
 * In one line: the strip stays in sight over the entries. The page of what waits has the whole message.
 * @param {HTMLElement} line
 * @param {SendProgress} progress
 */
function showProgress(line, { state, message }) {
  const [first = message] = message.match(/^.*?\.(?= |$)/) ?? [];
  if (state === "sending") say(line, phrase("Sending ..."));
  // Without signal this is the ordinary state.
  else if (state === "offline") {
    say(line, phrase("No server in reach"));
    showOffline(line);
  }
  // Here and not on the page of what needs a person: one touch fewer.
  else if (state === "signed_out") line.replaceChildren(phrase("Nothing is lost."), " ", signIn());
  else say(line, first);
  line.hidden = line.textContent === "";
}

function signIn() {
  const here = encodeURIComponent(location.pathname + location.search);
  return make("a", { href: `/sign-in?next=${here}` }, phrase("Sign in to send"));
}

/**
 * What is stored here and what the server has, always in the same place; starts the sending when the page has started.
 * @param {HTMLElement} place
 * @param {Promise<unknown>} started
 */
export default async function savedStatus(place, started) {
  const [text, progressLine, problemLine] = [make("p", { role: "status" }), make("p", { role: "status" }), make("p")];
  const button = make("button", { type: "button", class: "button quiet small", onclick: async () => (await sending()).sendNow() }, phrase("Send now"));
  place.replaceChildren(text, problemLine, progressLine, button);
  let isStored = true;
  const update = async () => {
    try {
      const outbox = await summary();
      showText(text, outbox, isStored);
      showProblems(problemLine, outbox);
      place.dataset.state = !isStored || outbox.problems > 0 ? "problem" : onlyHere(outbox) ? "waiting" : "received";
    } catch (error) {
      place.dataset.state = "problem";
      say(text, /** @type {Error} */ (error).message);
    }
  };
  listen(update);
  addEventListener("firstwater:not-stored", (event) => {
    isStored = !(/** @type {CustomEvent} */ (event).detail);
    update();
  });
  await Promise.all([update(), started]);
  const { onProgress, startSending } = await sending();
  onProgress((progress) => {
    button.disabled = progress.state === "sending";
    showProgress(progressLine, progress);
    if (!["idle", "sending"].includes(progress.state)) update();
  });
  startSending();
}
