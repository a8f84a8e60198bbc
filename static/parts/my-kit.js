import { phrase, written } from "../language/phrase.js";
import { recall, remember } from "./habits.js";
import { calibrationWords, isOverdue, kindInWords } from "./calibration.js";
import { stepsInOrder } from "./progress.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */
/** @typedef {{kind: string, steps: string[], possible: Instrument[]}} Need a kind of instrument, and the titles of the steps that measure with it */

/** Which instruments somebody has at this visit, by kind; an empty id says that there is none. @typedef {Record<string, {id: string, at: string}>} Kit */

/** @param {string} visit */
const habit = (visit) => `kit ${visit}`;

/** @param {string} visit @returns {Kit} */
export function kitOf(visit) {
  return JSON.parse(recall(habit(visit)) ?? "{}");
}

/**
 * Note for this visit, and as a suggestion for the next one on this phone, which instruments are here.
 * @param {string} visit
 * @param {Record<string, string>} chosen id by kind
 */
export function packKit(visit, chosen) {
  const at = new Date().toISOString();
  const added = Object.entries(chosen).map(([kind, id]) => [kind, { id, at }]);
  remember(habit(visit), JSON.stringify({ ...kitOf(visit), ...Object.fromEntries(added) }));
  for (const [kind, id] of Object.entries(chosen)) if (id) remember(`instrument ${kind}`, id);
}

/**
 * The kinds of instruments that this visit needs, in the order of its steps. What may drop out later still counts.
 * @param {VisitSession} session
 * @returns {Need[]}
 */
export function kindsNeeded(session) {
  /** @type {Map<string, Need>} */
  const needs = new Map();
  for (const step of stepsInOrder(session)) {
    for (const { id, instrument } of step.entries) {
      if (!instrument || session.judgement.quantities[`${step.id}.${id}`]?.applies === false) continue;
      /** @type {Need} */
      const need = needs.get(instrument) ?? { kind: instrument, steps: [], possible: session.known.filter((one) => one.kind === instrument) };
      needs.set(instrument, need);
      if (!need.steps.includes(step.title)) need.steps.push(step.title);
    }
  }
  return [...needs.values()];
}

/** @type {WeakMap<VisitSession, {version: number, uses: Map<string, EntryEvent>}>} */
const USES = new WeakMap();

/** The latest event with each instrument; looked for once when something was stored, for all choices of a page. @param {VisitSession} session */
function lastUses(session) {
  const { version } = session.stored;
  const known = USES.get(session);
  if (known?.version === version) return known.uses;
  /** @type {Map<string, EntryEvent>} */
  const uses = new Map();
  for (const event of session.events.values()) {
    const id = event.content?.instrument;
    if (id) uses.set(id, /** @type {EntryEvent} */ (later(uses.get(id) ?? null, event)));
  }
  USES.set(session, { version, uses });
  return uses;
}

/** @param {EntryEvent | null} one @param {EntryEvent | null} other */
const later = (one, other) => (one === null || (other !== null && other.hlc > one.hlc) ? other : one);

/**
 * The instrument of a kind that is offered first: what was last said of it in this visit, be it with a reading or in the
 * kit, else the only one, else the one of the last visit on this phone.
 * @param {VisitSession} session
 * @param {Instrument[]} possible
 * @param {string} kind
 */
export function suggestion(session, possible, kind) {
  const ids = new Set(possible.map((one) => one.id));
  const uses = lastUses(session);
  const latest = possible.reduce((before, { id }) => later(before, uses.get(id) ?? null), /** @type {EntryEvent | null} */ (null));
  const packed = kitOf(session.visit.id)[kind];
  if (packed && (latest === null || latest.at < packed.at)) return ids.has(packed.id) ? packed.id : "";
  if (latest) return latest.content.instrument;
  if (possible.length === 1) return possible[0].id;
  const last = recall(`instrument ${kind}`) ?? "";
  return ids.has(last) ? last : "";
}

/**
 * What is wrong with the instrument that is chosen for a kind, before anything is measured; empty: nothing.
 * @param {Need} need
 * @param {string} chosen its id, "" for none
 */
export function concern(need, chosen) {
  const kind = kindInWords(need.kind);
  if (need.possible.length === 0) return phrase("No {kind} is on this phone. The office adds it; then choose Send now while there is signal.", { kind });
  const instrument = need.possible.find((one) => one.id === chosen);
  if (!instrument) return phrase("You have no {kind} with you. It is needed for: {steps}.", { kind, steps: need.steps.join(", ") });
  if (!calibrationWords(instrument, new Date())) return "";
  const details = { name: instrument.name, due: written(instrument.calibration_due) };
  if (isOverdue(instrument, new Date())) return phrase("{name}: its calibration ended on {due}. The record will say so: take another one if you can.", details);
  return phrase("{name}: its calibration ends on {due}, perhaps before this visit is over.", details);
}

/**
 * The same for all kinds, in few lines; what is not chosen yet counts as suggested. Empty: nothing to say.
 * @param {VisitSession} session
 */
export function kitConcerns(session) {
  /** @type {string[]} */
  const unknown = [];
  /** @type {string[]} */
  const left = [];
  /** @type {string[]} */
  const lines = [];
  for (const need of kindsNeeded(session)) {
    const chosen = suggestion(session, need.possible, need.kind);
    if (need.possible.length === 0) unknown.push(kindInWords(need.kind));
    else if (chosen === "") left.push(kindInWords(need.kind));
    else lines.push(concern(need, chosen));
  }
  const kinds = (/** @type {string[]} */ names) => names.join(", ");
  return [
    ...lines,
    left.length > 0 ? phrase("Not with you, or not chosen yet: {kinds}.", { kinds: kinds(left) }) : "",
    unknown.length > 0 ? phrase("Not on this phone: {kinds}. The office adds them; then choose Send now while there is signal.", { kinds: kinds(unknown) }) : "",
  ].filter((words) => words !== "");
}
