import { BUILD } from "/build.js";
import { inLanguage, phrase, phrases } from "../language/phrase.js";
import { readSetting } from "../record/database.js";
import { listen } from "../record/changes.js";
import { giveOut, unsentFile } from "../record/export.js";
import { summary, unsent } from "../record/outbox.js";
import { visits } from "../record/visits.js";
import { units } from "../record/work.js";
import { onProgress, sendNow } from "../sync/send.js";
import { make, say } from "./element.js";
import { onlyHere } from "./saved-status.js";

/**
 * What waits, gathered by the visit that it belongs to.
 * @param {Awaited<ReturnType<typeof unsent>>} waiting
 */
function byVisit(waiting) {
  /** @type {Map<string, OutboxSummary>} */
  const counts = new Map();
  for (const [store, list] of Object.entries(waiting)) {
    for (const one of list) {
      const visit = "visit" in one ? one.visit : one.id;
      const empty = { visits: 0, events: 0, photos: 0, records: 0, problems: 0, savedAt: null, receivedAt: null };
      const count = /** @type {any} */ (counts.get(visit) ?? empty);
      count[store] += 1;
      counts.set(visit, count);
    }
  }
  return counts;
}

/** @param {Map<string, OutboxSummary>} counts */
async function visitList(counts) {
  const [known, all] = await Promise.all([visits(), units()]);
  const rows = [...counts].map(([id, count]) => {
    const visit = known.find((one) => one.id === id);
    const unit = all.find((one) => one.id === visit?.unit);
    const link = make("a", { href: inLanguage(`/field/visit?visit=${id}`) }, unit?.name ?? phrase("Visit"), ": ", onlyHere(count));
    return make("li", {}, link);
  });
  return make("ul", { class: "list" }, ...rows);
}

/** @param {number} count */
function toAttention(count) {
  const words = phrases("{count} needs attention", "{count} need attention", count);
  return count === 0 ? null : make("p", { class: "notice", "data-kind": "error" }, make("a", { class: "way", href: inLanguage("/field/attention") }, words));
}

/** @param {HTMLElement} result */
async function exportAll(result) {
  const words = {
    shared: phrase("The file was handed over. Everything also stays on this phone."),
    downloaded: phrase("The file was downloaded. Everything also stays on this phone."),
    cancelled: phrase("No file was handed over."),
  };
  try {
    say(result, words[await giveOut(await unsentFile())]);
  } catch (error) {
    say(result, `${/** @type {Error} */ (error).message} ${phrase("Nothing was removed from this phone.")}`);
  }
}

/**
 * A warning when the server found this phone's clock more than a minute off: entries carry its time.
 * @param {number | undefined} offset in milliseconds
 */
function clockWarning(offset = 0) {
  const minutes = Math.round(Math.abs(offset) / 60_000);
  if (minutes === 0) return null;
  const sentence = offset > 0
    ? phrase("This phone's clock is {minutes} min slow. Set it by the network, so that entries carry the right time.", { minutes })
    : phrase("This phone's clock is {minutes} min fast. Set it by the network, so that entries carry the right time.", { minutes });
  return make("p", { class: "notice", "data-kind": "warning" }, sentence);
}

async function aboutThisPhone() {
  const [person, persisted, clockOffset] = await Promise.all(["person", "persisted", "clockOffset"].map(readSetting));
  const kept = persisted
    ? phrase("The browser keeps the entries until you remove them yourself.")
    : phrase("The browser may clear the entries when the phone runs short of space. Install the app on the home screen, and send soon.");
  return make(
    "div",
    { class: "stack" },
    clockWarning(clockOffset),
    make("p", {}, kept, " ", phrase("Clearing the browser's data deletes what was not sent.")),
    make("p", { class: "muted" }, phrase("Prepared for {person}. Version {build}.", { person: person?.name ?? phrase("nobody yet"), build: BUILD })),
  );
}

/** @param {HTMLElement} list */
async function show(list) {
  const [outbox, waiting] = await Promise.all([summary(), unsent()]);
  const counts = byVisit(waiting);
  const here = onlyHere(outbox);
  const heading = here ? phrase("{here} only on this phone.", { here }) : phrase("Nothing waits: the server has received everything.");
  const refused = toAttention(outbox.problems);
  const rows = counts.size > 0 ? await visitList(counts) : null;
  list.replaceChildren(make("p", {}, heading), ...[refused, rows].filter((one) => one !== null));
}

/**
 * The page of what waits: by visit, with what the server refused and why, and the way out as a file.
 * @param {HTMLElement} place
 */
export default async function outboxPanel(place) {
  const [list, result] = [make("div", { class: "stack" }), make("p", { role: "status" })];
  const send = make("button", { type: "button", class: "button", onclick: () => sendNow() }, phrase("Send now"));
  const save = make("button", { type: "button", class: "button quiet", onclick: () => exportAll(result) }, phrase("Export as a file"));
  place.classList.add("stack");
  place.replaceChildren(list, make("div", { class: "row" }, send, save), result, await aboutThisPhone());
  onProgress(({ state, message }) => {
    send.disabled = state === "sending";
    if (message) say(result, message);
  });
  listen(() => show(list));
  await show(list);
}
