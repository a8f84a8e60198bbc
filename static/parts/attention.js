import { inLanguage, phrase, phrases } from "../language/phrase.js";
import { listen } from "../record/changes.js";
import { isOpen, visits } from "../record/visits.js";
import { onProgress } from "../sync/send.js";
import { showConflict } from "./conflict.js";
import { conflictsOf } from "./conflicts.js";
import { make, part, say } from "./element.js";
import { failure } from "./failure.js";
import { plainScreen } from "./plain-screen.js";
import { stepAddress } from "./progress.js";
import { openVisit } from "./session.js";
import { situations } from "./situations.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/**
 * The values of one visit that two phones entered differently, each to be chosen here.
 * @param {VisitSession} session
 * @param {HTMLElement} told
 */
function conflictSection(session, told) {
  const found = conflictsOf(session);
  if (found.length === 0) return null;
  const blocks = found.map((place) => {
    const box = make("div", {});
    const onpick = () => say(told, phrase("Chosen for {label}. The other value stays in the history.", { label: place.label }));
    showConflict(box, session, { ...place, onpick });
    const step = session.procedure.steps.find((one) => one.id === place.field.split(/[.#]/)[0]);
    const title = step ? make("a", { href: stepAddress(session, step.id) }, place.label) : place.label;
    return make("div", { class: "stack" }, make("h3", {}, title), box);
  });
  const heading = phrases("{count} value differs between two phones", "{count} values differ between two phones", found.length);
  const where = make("p", { class: "muted" }, `${session.unit.name}, ${session.site.name}`);
  return make("section", { class: "stack", id: "conflicts" }, make("h2", {}, heading), where, ...blocks);
}

/** @param {string | null} wanted the visit, or null for all */
async function sessions(wanted) {
  const open = (await visits()).filter((visit) => isOpen(visit) && (wanted === null || visit.id === wanted));
  const opened = await Promise.all(open.map((visit) => openVisit(visit.id).catch(() => null)));
  return /** @type {VisitSession[]} */ (opened.filter((one) => one !== null));
}

/**
 * What needs a person, each with its plain screen: first what two phones say differently, then what keeps this phone
 * from sending or storing.
 * @param {HTMLElement} root
 */
export default async function attention(root) {
  const [content, told] = [part(root, "content"), part(root, "told")];
  const wanted = new URLSearchParams(location.search).get("visit");
  /** @type {SendProgress} */
  let progress = { state: "idle", code: null, message: "" };
  const paint = async () => {
    try {
      const [found, open] = await Promise.all([situations(progress, (words) => say(told, words)), sessions(wanted)]);
      const parts = [...open.map((session) => conflictSection(session, told)), ...found.map(plainScreen)].filter((one) => one !== null);
      const nothing = make("p", { class: "notice", "data-kind": "success" }, phrase("Nothing needs you: no value is in conflict, and nothing was refused."));
      content.replaceChildren(...(parts.length ? parts : [nothing]), make("p", {}, make("a", { class: "way", href: inLanguage("/field") }, phrase("Go to my visits"))));
    } catch (error) {
      content.replaceChildren(failure(error));
    }
  };
  let waiting = 0;
  const soon = () => {
    clearTimeout(waiting);
    waiting = window.setTimeout(paint, 100);
  };
  onProgress((now) => {
    progress = now;
    if (now.state !== "sending") soon();
  });
  listen(soon);
  await paint();
}
