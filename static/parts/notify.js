import { phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { stepAddress } from "./progress.js";
import { everySecond } from "./ticking.js";
import { runningIn } from "./timer-span.js";
import { isOver, overWords } from "./timer-words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @returns {"absent" | NotificationPermission} */
function permission() {
  return "Notification" in window && "serviceWorker" in navigator ? Notification.permission : "absent";
}

const WORDS = {
  absent: phrase("This phone gives no notice here: set its own timer, too."),
  denied: phrase("Notices are off for this page in the phone's settings: set its own timer, too."),
  granted: phrase("A notice comes when the time is over. Where the phone puts this page to sleep, it comes on waking."),
};

/** The phone's question comes only after this touch. Called again it shows the answer. @param {HTMLElement} place */
export function offerNotice(place) {
  const now = permission();
  if (place.dataset.shown === now) return;
  place.dataset.shown = now;
  if (now !== "default") return place.replaceChildren(make("p", { class: "muted" }, WORDS[now]));
  const ask = async () => {
    await Notification.requestPermission();
    offerNotice(place);
  };
  place.replaceChildren(make("button", { type: "button", class: "button quiet small", onclick: ask }, phrase("Tell me when it is over")));
}

/** @param {{title: string, body: string, tag: string, address: string}} notice */
async function ring({ title, body, tag, address }) {
  // Without a touch before, browsers refuse to vibrate and complain.
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([400, 200, 400]);
  if (permission() !== "granted") return;
  const registration = await navigator.serviceWorker.getRegistration();
  // Where it fails after all, the words on the page stand.
  await registration?.showNotification(title, { body, tag, data: { address } }).catch(() => {});
}

/**
 * Tell once when a time of the visit is over, on whichever of its pages is open. What was over before the page came up
 * is not told again: it stands on the page.
 * @param {Element} page
 * @param {VisitSession} session
 */
export function ringWhenOver(page, session) {
  /** @type {Set<string>} */
  const awaited = new Set();
  everySecond(page, () => {
    for (const step of session.procedure.steps) {
      for (const { span, running } of runningIn(session, step)) {
        const tag = `${session.visit.id} ${span.until} ${running.since}`;
        if (running.over === null) continue;
        if (!isOver(running, Date.now())) awaited.add(tag);
        else if (awaited.delete(tag)) ring(noticeOf(session, step, `${span.label}: ${overWords({ ...running, over: running.over })}`, tag));
      }
    }
  });
}

/** @param {VisitSession} session @param {any} step @param {string} body @param {string} tag */
function noticeOf(session, step, body, tag) {
  return { title: `${step.title}, ${session.unit.name}`, body, tag, address: stepAddress(session, step.id) };
}
