import { inLanguage, phrase, phrases } from "../language/phrase.js";
import { procedureNames } from "../record/work.js";
import { make, part } from "./element.js";
import { gauge } from "./gauge.js";
import { kitConcerns, kitOf } from "./my-kit.js";
import { onward } from "./onward.js";
import { outlineOf } from "./outline.js";
import { openPage } from "./page.js";
import { acceptedFacts, plateCard } from "./plate-card.js";
import { decidedBy, droppedOut, reviewAddress, stepAddress, stepsInOrder } from "./progress.js";
import { stateInShort, stateTag } from "./state-words.js";
import { timerLines } from "./timer-words.js";
import { toChoose } from "./to-choose.js";
import { verdictMark } from "./verdict.js";
import { VISIT_STATES } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {VisitSession} session @param {any} step */
function row(session, step) {
  const { verdict } = session.judgement.steps[step.id];
  const because = stateInShort(session, step);
  const judged = verdict !== "not_measured" && verdict !== "not_applicable";
  return make(
    "li",
    {},
    make(
      "a",
      { href: stepAddress(session, step.id) },
      make("span", {}, step.title),
      stateTag(session, step),
      judged ? verdictMark(verdict) : null,
      because ? make("span", { class: "line" }, because) : null,
      ...timerLines(session, step),
    ),
  );
}

/** @param {VisitSession} session @param {any} stage */
function stageSection(session, stage) {
  const steps = stepsInOrder(session).filter((step) => stage.steps.includes(step.id));
  if (steps.length === 0) return null;
  return make("section", { class: "stack" }, make("h2", {}, stage.title), make("ul", { class: "list" }, ...steps.map((step) => row(session, step))));
}

/** @param {VisitSession} session */
function head(session) {
  const { unit, site, visit } = session;
  const far = outlineOf(session);
  return make(
    "div",
    { class: "card" },
    make("p", { class: "row" }, make("strong", {}, unit.name), make("span", { class: "tag", "data-state": visit.state }, phrase(VISIT_STATES[visit.state]))),
    make("p", { class: "muted" }, [site.name, unit.serial, session.procedure.title].filter(Boolean).join(" - ")),
    visit.returned ? make("p", { class: "notice", "data-kind": "warning" }, phrase("Returned by the supervisor: {reasons}", { reasons: visit.returned.reasons })) : null,
    gauge(far),
    session.open ? toChoose(far.conflicts, visit) : null,
    ...(session.open ? onward(far, session) : []),
    session.open ? kitLine(session) : null,
    make("p", {}, make("a", { class: "way", href: reviewAddress(session) }, session.open ? phrase("Review what is entered so far") : phrase("See the signed record"))),
    make("p", {}, make("a", { class: "way", href: inLanguage("/field/waiting") }, phrase("What waits to be sent"))),
  );
}

/** The version by which new visits begin. @param {VisitSession} session */
async function newestOf({ visit }) {
  const versions = (await procedureNames()).filter(({ id }) => id === visit.procedure.id).map(({ version }) => version);
  return Math.max(visit.procedure.version, ...versions);
}

/** @param {VisitSession} session @param {number} newest */
function formerVersion({ visit, open }, newest) {
  const { version } = visit.procedure;
  if (!open || newest === version) return null;
  return make("p", { class: "notice", "data-kind": "info" }, phrase("This visit goes on by version {version} of the procedure, with which it began: nothing has to be entered again. New visits begin by version {newest}.", { version, newest }));
}

/**
 * What is to know about the instruments before the work begins, and the way to choose them.
 * @param {VisitSession} session
 */
function kitLine(session) {
  const isPacked = Object.keys(kitOf(session.visit.id)).length > 0;
  const concerns = kitConcerns(session);
  const address = inLanguage(`/field/kit?visit=${session.visit.id}`);
  const link = make("a", { class: "way", href: address }, isPacked ? phrase("My instruments") : phrase("Choose your instruments before you start"));
  if (concerns.length === 0) return make("p", {}, link);
  return make("div", { class: "notice kit-line", "data-kind": "warning" }, make("ul", {}, ...concerns.map((words) => make("li", {}, words))), make("p", {}, link));
}

/**
 * The steps that this unit does not need, each with what says so.
 * @param {VisitSession} session
 */
function leftOut(session) {
  const rows = droppedOut(session).map((step) =>
    make("li", {}, make("span", {}, step.title), make("span", { class: "line" }, session.labels.condition(decidedBy(session, step)))),
  );
  return rows.length ? make("details", { class: "card" }, make("summary", {}, phrases("Not for this unit: {count} step", "Not for this unit: {count} steps", rows.length)), make("ul", { class: "list plain" }, ...rows)) : null;
}

/**
 * The steps of a visit by stage, each with its state, and the next sensible one on top.
 * @param {HTMLElement} root
 */
export default async function visit(root) {
  const session = await openPage(root);
  const newest = session ? await newestOf(session) : 0;
  session?.watch(() => {
    const stages = session.procedure.stages.map((stage) => stageSection(session, stage));
    const parts = [head(session), formerVersion(session, newest), ...stages, plateCard(session), leftOut(session), acceptedFacts(session)].filter(Boolean);
    part(root, "content").replaceChildren(.../** @type {Node[]} */ (parts));
  });
}
