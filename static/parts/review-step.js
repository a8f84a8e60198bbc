import { phrase, phrases } from "../language/phrase.js";
import { inWords } from "./contents.js";
import { drawnPicture } from "./drawn.js";
import { make } from "./element.js";
import { notReached, stateOf, stepAddress } from "./progress.js";
import { stateTag } from "./state-words.js";
import { verdictMark } from "./verdict.js";
import { moment } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {VisitSession} session @param {string} field @param {any} entry */
function valueWords(session, field, entry) {
  const found = session.case.entries[field];
  if (Array.isArray(found)) {
    const last = /** @type {any} */ (found.at(-1));
    return found.length ? phrases("{count} reading: {last}", "{count} readings, the last {last}", found.length, { last: inWords(last.conflict?.[0] ?? last, entry) }) : "–";
  }
  return "conflict" in (found ?? {}) ? phrase("Two different values") : inWords(found, entry);
}

/** @param {VisitSession} session @param {any} step @param {any} entry */
function row(session, step, entry) {
  const field = `${step.id}.${entry.id}`;
  const found = /** @type {any} */ (session.case.entries[field]);
  const instrument = session.case.instruments[found?.instrument];
  const drawn = entry.kind === "drawing" && found?.strokes?.length ? drawnPicture(found) : null;
  return [
    make("dt", {}, entry.label),
    make("dd", {}, valueWords(session, field, entry), drawn, instrument ? make("span", { class: "line muted" }, phrase("with {name}", { name: instrument.name })) : null),
  ];
}

/** @param {VisitSession} session @param {any} step */
function notes(session, step) {
  const found = /** @type {any[]} */ (session.case.notes?.[step.id] ?? []);
  return found.map((note) => make("p", {}, phrase("Note, {moment}: {value}", { moment: moment(note.at), value: note.value })));
}

/**
 * What was entered. It is folded where the step has passed, so that one finds what did not.
 * @param {VisitSession} session @param {any} step @param {any[]} entered
 */
function folded(session, step, entered) {
  if (entered.length === 0) return null;
  const facts = make("dl", { class: "facts" }, ...entered.flatMap((entry) => row(session, step, entry)));
  const hasPassed = session.judgement.steps[step.id].verdict === "pass" && stateOf(session, step) === "done";
  const words = make("summary", {}, phrases("{count} entry", "{count} entries", entered.length));
  return make("details", { class: "entered", "data-step": step.id, open: !hasPassed }, words, facts);
}

/** What was not reached lacks everything, and its mark says so. @param {VisitSession} session @param {any} step @param {any[]} left */
function lacking(session, step, left) {
  if (left.length === 0 || stateOf(session, step) === "not_done" || notReached(session).has(step.id)) return null;
  return make("p", { class: "lacking" }, phrase("Not entered: {left}.", { left: left.map((entry) => entry.label).join("; ") }));
}

/**
 * A step on the review page: state, verdict, its entries, and the way back to change them.
 * @param {VisitSession} session
 * @param {any} step
 */
export function stepInShort(session, step) {
  const { verdict } = session.judgement.steps[step.id];
  const entries = step.entries.filter((/** @type {any} */ entry) => session.exists(`${step.id}.${entry.id}`));
  const isEntered = (/** @type {any} */ entry) => session.case.entries[`${step.id}.${entry.id}`] !== undefined;
  const [entered, left] = [entries.filter(isEntered), entries.filter((/** @type {any} */ entry) => !isEntered(entry))];
  const change = make(
    "a",
    { href: stepAddress(session, step.id), class: "change" },
    session.open ? phrase("Change") : phrase("Open"),
    make("span", { class: "visually-hidden" }, ` ${step.title}`),
  );
  return make(
    "section",
    { class: "card short" },
    make("div", { class: "row" }, make("h3", {}, step.title), change),
    make("p", { class: "row" }, stateTag(session, step), verdictMark(verdict)),
    folded(session, step, entered),
    lacking(session, step, left),
    ...notes(session, step),
  );
}
