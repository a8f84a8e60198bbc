import { inLanguage, phrase, phrases } from "../language/phrase.js";
import { preparedFor } from "../signing/device-key.js";
import { listen } from "../record/changes.js";
import { unsent } from "../record/outbox.js";
import { isOpen, visits } from "../record/visits.js";
import { sites, units } from "../record/work.js";
import { make, part } from "./element.js";
import { gauge } from "./gauge.js";
import { onward } from "./onward.js";
import { toChoose } from "./to-choose.js";
import { failure } from "./page.js";
import { progress } from "./progress.js";
import { openVisit } from "./session.js";
import { startVisit } from "./start-visit.js";
import { moment, VISIT_STATES } from "./words.js";

const SHOWN_CLOSED = 20;

/** What is still missing before work can begin. */
async function readiness() {
  const [{ person }, known] = await Promise.all([preparedFor(), units()]);
  if (person === null) {
    return make(
      "div",
      { class: "card stack" },
      make("h2", {}, phrase("This phone is not prepared yet")),
      make("p", {}, phrase("Sign in once while there is signal and prepare the phone. From then on it works without signal.")),
      make("p", {}, make("a", { class: "button", href: "/phone" }, phrase("Sign in and prepare this phone"))),
    );
  }
  if (known.length > 0) return null;
  const sentence = phrase("The list of units is not on this phone yet. Open What waits and choose Send now while there is signal.");
  return make("p", { class: "notice", "data-kind": "info" }, sentence);
}

/** @param {StoredVisit} visit */
async function glance(visit) {
  const [unit, waiting] = await Promise.all([
    units().then((all) => all.find((one) => one.id === visit.unit)),
    unsent(),
  ]);
  const things = [...waiting.events, ...waiting.photos, ...waiting.records].filter((one) => one.visit === visit.id);
  const count = things.length + (visit.sent === "received" ? 0 : 1);
  const session = isOpen(visit) ? await openVisit(visit.id).catch(() => null) : null;
  return { visit, unit, count, session };
}

/** @param {Awaited<ReturnType<typeof glance>>} about */
function headOf({ visit, unit }) {
  const state = make("span", { class: "tag", "data-state": visit.state }, phrase(VISIT_STATES[visit.state]));
  return [make("span", {}, unit?.name ?? phrase("A unit that is not on this phone")), state];
}

/** @param {Awaited<ReturnType<typeof glance>>} about */
function waitingWords({ count }) {
  return count === 0 ? phrase("Everything is on the server.") : phrases("One thing only on this phone so far.", "{count} things only on this phone so far.", count);
}

/** @param {Awaited<ReturnType<typeof glance>>} about @param {Site[]} places */
function openCard(about, places) {
  const { visit, unit, session } = about;
  const overview = inLanguage(`/field/visit?visit=${visit.id}`);
  const site = places.find((one) => one.id === unit?.site);
  if (session === null) {
    return make("li", { class: "card" }, make("h2", { class: "row" }, ...headOf(about)), make("a", { href: overview }, phrase("Open")));
  }
  const far = progress(session);
  const held = session.judgement.record.blocking.length;
  return make(
    "li",
    { class: "card" },
    make("h2", { class: "row" }, ...headOf(about)),
    make("p", { class: "muted" }, [site?.name, unit?.serial, phrase("started {moment}", { moment: moment(visit.started_at) })].filter(Boolean).join(" - ")),
    visit.returned ? make("p", { class: "notice", "data-kind": "warning" }, phrase("Returned: {reasons}", { reasons: visit.returned.reasons })) : null,
    gauge(far),
    make("p", {}, waitingWords(about)),
    toChoose(session),
    ...onward(session),
    make("p", {}, make("a", { href: overview }, phrase("All steps")), held && !far.next ? ` - ${phrases("one thing open", "{count} things open", held)}` : ""),
  );
}

/** @param {Awaited<ReturnType<typeof glance>>} about */
function closedRow(about) {
  return make(
    "li",
    {},
    make(
      "a",
      { href: inLanguage(`/field/visit?visit=${about.visit.id}`) },
      ...headOf(about),
      make("span", { class: "line" }, `${phrase("Started {moment}.", { moment: moment(about.visit.started_at) })} ${waitingWords(about)}`),
    ),
  );
}

/** @param {HTMLElement} root */
async function paint(root) {
  const [all, places, notReady] = await Promise.all([visits(), sites(), readiness()]);
  const mine = await Promise.all(all.map(glance));
  const open = mine.filter(({ visit }) => isOpen(visit));
  const closed = mine.filter(({ visit }) => !isOpen(visit)).slice(0, SHOWN_CLOSED);
  part(root, "ready").replaceChildren(...[notReady].filter(Boolean));
  part(root, "visits").replaceChildren(
    .../** @type {Node[]} */ (
      [
        open.length ? make("ul", { class: "cards" }, ...open.map((one) => openCard(one, places))) : null,
        open.length || notReady ? null : make("p", {}, phrase("No visit is in work on this phone.")),
        closed.length ? make("h2", {}, phrase("Signed")) : null,
        closed.length ? make("ul", { class: "list" }, ...closed.map(closedRow)) : null,
      ].filter(Boolean)
    ),
  );
  part(root, "start").hidden = notReady !== null;
}

/**
 * My visits at a glance, and a new one.
 * @param {HTMLElement} root
 */
export default async function home(root) {
  try {
    await startVisit(root);
    await paint(root);
    let waiting = 0;
    listen(() => {
      clearTimeout(waiting);
      waiting = window.setTimeout(() => paint(root), 200);
    });
  } catch (error) {
    part(root, "visits").replaceChildren(failure(error));
  }
}
