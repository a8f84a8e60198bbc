import { phrase } from "../language/phrase.js";
import { StorageError } from "../record/database.js";
import { failure } from "./failure.js";
import { action, plainScreen } from "./plain-screen.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {StorageError} error @param {() => unknown} again */
function screen(error, again) {
  return plainScreen({
    id: "not-stored",
    kind: "error",
    title: error.code === "storage_full" ? phrase("Not stored: the phone is full") : phrase("Not stored yet"),
    happened: `${error.message} (${error.code})`,
    safe: phrase("Everything that was stored before. What you typed last is still in its place on this page, and only there."),
    now: phrase("Leave this page open. Make room: send what waits, or delete films and apps that you do not need. Then store again."),
    actions: [action(phrase("Store again"), again), action(phrase("Send what waits"), async () => (await import("../sync/send.js")).sendNow(), true)],
    otherwise: phrase("It is tried again with the next thing that you enter. If this page is closed before, what you typed last is lost: write it on paper first."),
  });
}

/**
 * What could not be stored is said in full on the page and in short on the strip, until it is stored.
 * @param {VisitSession} session
 * @param {HTMLElement} notice
 */
export function watchStoring(session, notice) {
  /** @type {Set<import("./session.js").Draft>} */
  const failed = new Set();
  // The strip on top hears it, which has no visit.
  const tell = () => dispatchEvent(new CustomEvent("firstwater:not-stored", { detail: failed.size > 0 }));
  session.onfailure = (error, draft) => {
    failed.add(draft);
    // A screen that is there stays: a new one would take its buttons away from under the finger.
    if (notice.dataset.shown !== error.code) notice.replaceChildren(error instanceof StorageError ? screen(error, () => session.flushAll()) : failure(error));
    notice.dataset.shown = error.code ?? "";
    tell();
  };
  session.onstored = () => {
    const typed = new Set(session.drafts.values());
    for (const draft of failed) if (!typed.has(draft)) failed.delete(draft);
    if (failed.size > 0) return;
    notice.replaceChildren();
    delete notice.dataset.shown;
    tell();
  };
}
