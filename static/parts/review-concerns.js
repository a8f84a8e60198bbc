import { ENGLISH, language, phrase, written } from "../language/phrase.js";
import { defectWords, severityWord } from "./defect-row.js";
import { defectsOf } from "./defects.js";
import { isOverdue } from "./calibration.js";
import { plateConcerns } from "./plate-concerns.js";
import { notReached, stateOf, stepsInOrder } from "./progress.js";
import { stateWords } from "./state-words.js";
import { ruleWords, verdictWord } from "./verdict.js";
import { moment } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */
/** @typedef {{step: string, words: string, kind: "blocks" | "look", title?: string}} Concern */

const NAMED = 4;
const WORRYING = new Set(["fail", "no_valid_setting", "instrument_not_good_enough", "conditional_fail", "conditional_pass", "pending"]);

/** A short list is named, a long one counted: every step lists below what was not entered. @param {VisitSession} session @param {any} step @param {string[]} missing */
function lacking(session, step, missing) {
  if (missing.length === 0) return "";
  if (missing.length > NAMED) return ` ${phrase("{count} values are missing.", { count: missing.length })}`;
  return ` ${phrase("Missing: {missing}.", { missing: missing.map((name) => session.labels.withPlace(name, step.id)).join("; ") })}`;
}

/** @param {VisitSession} session @param {any} step @returns {Concern[]} */
function ofState(session, step) {
  const state = stateOf(session, step);
  if (state === "done" || state === "not_applicable" || notReached(session).has(step.id)) return [];
  if (state === "not_done") return [{ step: step.id, words: stateWords(session, step), kind: "look" }];
  const words = stateWords(session, step) || phrase("Not marked done yet.");
  const { missing } = session.judgement.steps[step.id];
  return [{ step: step.id, words: words + lacking(session, step, missing), kind: "blocks" }];
}

/** One line for all that waits for what could not be done. @param {VisitSession} session @returns {Concern[]} */
function ofNotReached(session) {
  const names = [...notReached(session)];
  if (names.length === 0) return [];
  const words = names.map((name) => session.labels.of(name)).join("; ");
  return [{ step: names[0], title: phrase("Not reached"), words, kind: "look" }];
}

/** @param {VisitSession} session @param {any} step @returns {Concern[]} */
function ofRules(session, step) {
  if (notReached(session).has(step.id)) return [];
  return step.rules.flatMap((/** @type {any} */ rule) => {
    const judged = session.judgement.rules[`${step.id}.${rule.id}`];
    if (!judged || rule.weight === "information" || !WORRYING.has(judged.verdict)) return [];
    const verdict = verdictWord(judged.verdict);
    const words = `${rule.label}: ${language === ENGLISH ? verdict.toLowerCase() : verdict}. ${ruleWords(rule, judged, session)}`;
    return [{ step: step.id, words, kind: "look" }];
  });
}

/** @param {VisitSession} session @param {any} step @returns {Concern[]} */
function ofStatements(session, step) {
  const { override, not_applicable } = session.case.steps[step.id] ?? {};
  const words = [];
  if (override) words.push(phrase("Done although a step that comes first was not met. Reason: {reason}", { reason: override.reason }));
  if (not_applicable) words.push(phrase("Left out as not applicable. Reason: {reason}", { reason: not_applicable.reason }));
  return words.map((text) => ({ step: step.id, words: text, kind: "look" }));
}

/** @param {VisitSession} session @param {any} step @returns {Concern[]} */
function ofDefects(session, step) {
  return defectsOf(session, step)
    .filter(({ content }) => !content.closed)
    .map(({ content }) => ({
      step: step.id,
      words: `${severityWord(content.severity)}: ${content.text}. ${defectWords(content)}.`,
      kind: content.severity === "safety" ? "blocks" : "look",
    }));
}

/** @param {VisitSession} session @param {any} step @returns {Concern[]} */
function ofEntries(session, step) {
  return step.entries.flatMap((/** @type {any} */ entry) => {
    const found = session.case.entries[`${step.id}.${entry.id}`];
    if (!found) return [];
    const cells = /** @type {any[]} */ (Array.isArray(found) ? found : [found]);
    const words = new Set(cells.flatMap((cell) => ofCell(session, entry, cell)));
    const kind = cells.some((cell) => cell.conflict) ? "blocks" : "look";
    return [...words].map((text) => ({ step: step.id, words: text, kind }));
  });
}

/** @param {VisitSession} session @param {any} entry @param {any} cell @returns {string[]} */
function ofCell(session, entry, cell) {
  if (cell.conflict) return [phrase("Two different values for {label}: pick the one that holds.", { label: entry.label })];
  const found = [];
  const instrument = session.case.instruments[cell.instrument];
  if (instrument && isOverdue(instrument, new Date(cell.at))) {
    found.push(phrase("{label}: the calibration of {name} ended on {calibration_due}.", { label: entry.label, name: instrument.name, calibration_due: written(instrument.calibration_due) }));
  }
  const event = session.events.get(cell.id);
  if (event?.reason?.code === "not_given") found.push(phrase("{label}: changed {moment} without a reason. Open the step and choose one.", { label: entry.label, moment: moment(event.at) }));
  return found;
}

/**
 * Everything that a person should look at before signing, what blocks the signature first.
 * @param {VisitSession} session
 * @returns {Concern[]}
 */
export function concerns(session) {
  const found = stepsInOrder(session).flatMap((step) => [
    ...ofState(session, step),
    ...ofEntries(session, step),
    ...ofRules(session, step),
    ...ofStatements(session, step),
    ...ofDefects(session, step),
  ]);
  found.push(...ofNotReached(session), ...plateConcerns(session));
  return [...found.filter((one) => one.kind === "blocks"), ...found.filter((one) => one.kind !== "blocks")];
}
