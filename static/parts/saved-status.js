import { listen } from "../record/changes.js";
import { summary } from "../record/outbox.js";
import { onProgress, sendNow, startSending } from "../sync/send.js";
import { make, say } from "./element.js";

/**
 * @param {number} number
 * @param {string} one
 * @param {string} many
 */
function counted(number, one, many) {
  return number === 0 ? null : `${number}\u00a0${number === 1 ? one : many}`;
}

/** The time of day, with the date in front unless it is today. @param {string} instant */
export function shortTime(instant) {
  const then = new Date(instant);
  const time = then.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
  return then.toDateString() === new Date().toDateString() ? time : `${then.toLocaleDateString()} ${time}`;
}

/** What is only on this phone, in words; null when nothing is. @param {OutboxSummary} outbox */
export function onlyHere({ visits, events, photos, records }) {
  const parts = [
    counted(events, "entry", "entries"),
    counted(photos, "photo", "photos"),
    counted(records, "signed record", "signed records"),
    events + photos + records === 0 ? counted(visits, "visit", "visits") : null,
  ];
  return parts.filter(Boolean).join(", ") || null;
}

/** @param {OutboxSummary} outbox */
function sentence(outbox) {
  const waiting = onlyHere(outbox);
  if (waiting && outbox.savedAt) return `Saved on this phone ${shortTime(outbox.savedAt)} - ${waiting} only here`;
  if (waiting) return `${waiting} only on this phone`;
  if (outbox.receivedAt) return `Everything received by the server ${shortTime(outbox.receivedAt)}`;
  return "Nothing waits on this phone";
}

/** @param {HTMLElement} line @param {OutboxSummary} outbox */
function showProblems(line, { problems }) {
  line.hidden = problems === 0;
  const link = make("a", { href: "/field/waiting" }, `${problems} ${problems === 1 ? "needs" : "need"} attention`);
  line.replaceChildren(link);
}

/**
 * In one line: the strip stays in sight over the entries. The page of what waits has the whole message.
 * @param {HTMLElement} line
 * @param {SendProgress} progress
 */
function showProgress(line, { state, message }) {
  const [first = message] = message.match(/^.*?\.(?= |$)/) ?? [];
  if (state === "sending") say(line, "Sending ...");
  // Without signal this is the ordinary state.
  else if (state === "offline") say(line, "No server in reach");
  else if (state === "signed_out") line.replaceChildren("Nothing is lost. ", signIn());
  else say(line, first);
  line.hidden = line.textContent === "";
}

function signIn() {
  const here = encodeURIComponent(location.pathname + location.search);
  return make("a", { href: `/sign-in?next=${here}` }, "Sign in to send");
}

/**
 * What is stored here and what the server has, always in the same place; starts the sending.
 * @param {HTMLElement} place
 */
export default function savedStatus(place) {
  const [text, progressLine, problemLine] = [make("p", { role: "status" }), make("p", { role: "status" }), make("p")];
  const button = make("button", { type: "button", class: "button quiet small", onclick: () => sendNow() }, "Send now");
  place.replaceChildren(text, problemLine, progressLine, button);
  const update = async () => {
    try {
      const outbox = await summary();
      say(text, sentence(outbox));
      showProblems(problemLine, outbox);
      place.dataset.state = outbox.problems > 0 ? "problem" : onlyHere(outbox) ? "waiting" : "received";
    } catch (error) {
      place.dataset.state = "problem";
      say(text, /** @type {Error} */ (error).message);
    }
  };
  onProgress((progress) => {
    button.disabled = progress.state === "sending";
    showProgress(progressLine, progress);
    if (progress.state !== "sending") update();
  });
  listen(update);
  startSending();
  return update();
}
