import { inLanguage, phrase, phrases } from "../language/phrase.js";
import { listen } from "../record/changes.js";
import { basisOf } from "../record/outlines.js";
import { overview } from "../record/overview.js";
import { isOpen } from "../record/visits.js";
import { make, part } from "./element.js";
import { failure } from "./failure.js";
import { gauge } from "./gauge.js";
import { judgedApart } from "./judged-apart.js";
import { onward } from "./onward.js";
import { startVisit } from "./start-visit.js";
import { toChoose } from "./to-choose.js";
import { moment, VISIT_STATES } from "./words.js";

/** @typedef {Awaited<ReturnType<typeof overview>>} Overview */

/**
 * `isJudged` says that the outline is of what is stored now; with null the visit cannot be judged here.
 * @typedef {Overview["rows"][0] & {unit: Unit | undefined, site: Site | undefined, outline: Outline | null, isJudged: boolean}} About
 */

const SHOWN_CLOSED = 20;

/** What is still missing before work can begin. @param {Overview} seen */
function readiness({ person, units }) {
  if (person === null) {
    return make(
      "div",
      { class: "card stack" },
      make("h2", {}, phrase("This phone is not prepared yet")),
      make("p", {}, phrase("Sign in once while there is signal and prepare the phone. From then on it works without signal.")),
      make("p", {}, make("a", { class: "button", href: "/phone" }, phrase("Sign in and prepare this phone"))),
    );
  }
  if (units.length > 0) return null;
  const sentence = phrase("The list of units is not on this phone yet. Open What waits and choose Send now while there is signal.");
  return make("p", { class: "notice", "data-kind": "info" }, sentence);
}

/** @param {Overview["rows"][0]} row @param {Overview} seen @returns {Promise<About>} */
async function aboutOf(row, { units, sites, known }) {
  const unit = units.find((one) => one.id === row.visit.unit);
  const site = sites.find((one) => one.id === unit?.site);
  const outline = row.kept?.outline ?? null;
  const isJudged = outline !== null && outline.basis === (await basisOf({ visit: row.visit, count: row.kept?.count ?? 0, unit, site, known }));
  return { ...row, unit, site, outline, isJudged };
}

/** @param {About} about */
function headOf({ visit, unit }) {
  const state = make("span", { class: "tag", "data-state": visit.state }, phrase(VISIT_STATES[visit.state]));
  return [make("span", {}, unit?.name ?? phrase("A unit that is not on this phone")), state];
}

/** @param {About} about */
function waitingWords({ unsent }) {
  return unsent === 0 ? phrase("Everything is on the server.") : phrases("One thing only on this phone so far.", "{count} things only on this phone so far.", unsent);
}

/** How far the visit is; what may be otherwise by now says so until it is judged. @param {About} about */
function farOf({ outline, isJudged }) {
  if (outline && isJudged) return gauge(outline);
  const words = make("p", { class: "muted" }, phrase("Being judged ..."));
  if (outline === null) return make("div", { class: "progress", "aria-busy": "true" }, make("div", { class: "gauge" }), words);
  const far = gauge(outline);
  far.setAttribute("aria-busy", "true");
  far.lastElementChild?.append(` - ${phrase("as it was before, being judged again ...")}`);
  return far;
}

/** What stands in the way, in a line. @param {About} about */
function stopsOf({ outline, isJudged }) {
  if (!isJudged || !outline?.stops) return null;
  const { failed, again, held, beyond } = outline.stops;
  const parts = [
    failed ? phrases("{count} step fails", "{count} steps fail", failed) : null,
    again ? phrases("{count} step to look at again", "{count} steps to look at again", again) : null,
    held ? phrases("{count} step waits for another", "{count} steps wait for others", held) : null,
    beyond ? phrases("{count} step was not reached", "{count} steps were not reached", beyond) : null,
  ].filter(Boolean);
  return parts.length ? make("p", {}, `${parts.join(", ")}.`) : null;
}

/** @param {About} about */
function openCard(about) {
  const { visit, unit, site, outline, isJudged } = about;
  const overviewPage = inLanguage(`/field/visit?visit=${visit.id}`);
  if (outline === null && isJudged) {
    return make("li", { class: "card" }, make("h2", { class: "row" }, ...headOf(about)), make("a", { href: overviewPage }, phrase("Open")));
  }
  const open = isJudged && outline && !outline.next ? outline.blocking : 0;
  return make(
    "li",
    { class: "card" },
    make("h2", { class: "row" }, ...headOf(about)),
    make("p", { class: "muted" }, [site?.name, unit?.serial, phrase("started {moment}", { moment: moment(visit.started_at) })].filter(Boolean).join(" - ")),
    visit.returned ? make("p", { class: "notice", "data-kind": "warning" }, phrase("Returned: {reasons}", { reasons: visit.returned.reasons })) : null,
    farOf(about),
    stopsOf(about),
    make("p", {}, waitingWords(about)),
    outline && isJudged ? toChoose(outline.conflicts, visit) : null,
    ...(outline && isJudged ? onward(outline, about) : [make("a", { class: "button", href: overviewPage }, phrase("Open"))]),
    make("p", { class: "row" }, make("a", { class: "way", href: overviewPage }, phrase("All steps")), open ? phrases("one thing open", "{count} things open", open) : null),
  );
}

/** @param {About} about */
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

/** The card of a visit, which is judged beside the page where what is kept of it is of before. @param {About} about */
function cardOf(about) {
  const card = openCard(about);
  if (!about.isJudged) {
    judgedApart(about.visit.id).then((outline) => card.replaceWith(openCard({ ...about, outline, isJudged: true })));
  }
  return card;
}

/** @param {HTMLElement} root @param {(units: Unit[], sites: Site[]) => void} offer */
async function paint(root, offer) {
  const seen = await overview();
  const mine = await Promise.all(seen.rows.map((row) => aboutOf(row, seen)));
  const open = mine.filter(({ visit }) => isOpen(visit));
  const closed = mine.filter(({ visit }) => !isOpen(visit)).slice(0, SHOWN_CLOSED);
  const notReady = readiness(seen);
  part(root, "ready").replaceChildren(...[notReady].filter(Boolean));
  part(root, "visits").replaceChildren(
    .../** @type {Node[]} */ (
      [
        open.length ? make("ul", { class: "cards" }, ...open.map(cardOf)) : null,
        open.length || notReady ? null : make("p", {}, phrase("No visit is in work on this phone.")),
        closed.length ? make("h2", {}, phrase("Signed")) : null,
        closed.length ? make("ul", { class: "list" }, ...closed.map(closedRow)) : null,
      ].filter(Boolean)
    ),
  );
  if (notReady === null) offer(seen.units, seen.sites);
  part(root, "start").hidden = notReady !== null;
}

/**
 * My visits at a glance, and a new one.
 * @param {HTMLElement} root
 */
export default async function home(root) {
  try {
    const offer = startVisit(root);
    await paint(root, offer);
    let waiting = 0;
    listen(() => {
      clearTimeout(waiting);
      waiting = window.setTimeout(() => paint(root, offer), 200);
    });
  } catch (error) {
    part(root, "visits").replaceChildren(failure(error));
  }
}
