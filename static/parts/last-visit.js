import { fold } from "../judging/fold.js";
import { phrase, written } from "../language/phrase.js";
import { eventsOf } from "../record/events.js";
import { visits } from "../record/visits.js";
import { make, say } from "./element.js";
import { day, distance, number, quantity } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */
/** @typedef {{name: string, when: string, value: number}} Before what a quantity was, and when: "At acceptance" */

/** Units with a zero of their own choice: a share of such a value means nothing. */
const NO_SHARE = new Set(["degC", "degF", "date"]);

/**
 * How a value differs from what it was: in per cent where that means something.
 * @param {number} now @param {number} before @param {string | null} unit
 */
export function changeWords(now, before, unit) {
  if (now === before) return phrase("unchanged");
  const plain = before === 0 || NO_SHARE.has(unit ?? "");
  const amount = plain ? distance(Math.abs(now - before), unit) : `${number(Math.abs(now / before - 1) * 100, 2)} %`;
  return now > before ? phrase("now {amount} more", { amount }) : phrase("now {amount} less", { amount });
}

/**
 * What these cells of a baseline say of quantities of this step.
 * @param {any} step @param {VisitSession} session @param {Record<string, any>} cells @param {(cell: any) => string} when
 * @returns {Before[]}
 */
function found(step, session, cells, when) {
  return (session.procedure.baseline ?? []).flatMap((entry) => {
    const { value, unit } = cells[entry.id] ?? {};
    const comparable = entry.from?.startsWith(`${step.id}.`) && typeof value === "number" && unit === session.judgement.quantities[entry.from]?.unit;
    return comparable ? [{ name: entry.from, when: when(cells[entry.id]), value }] : [];
  });
}

/** What losses are measured against; a cell that names a record was taken anew there. @param {any} step @param {VisitSession} session */
const accepted = (step, session) =>
  found(step, session, session.case.baseline ?? {}, ({ record }) => (record ? phrase("When it was new") : phrase("At acceptance")));

/** What the last accepted visit found, for information. @param {any} step @param {VisitSession} session */
function lastAccepted(step, session) {
  const last = session.procedure.compares && session.unit.baseline?.last;
  return last ? found(step, session, last.values, () => lastVisit(last.at)) : [];
}

/** @param {string} at */
const lastVisit = (at) => phrase("Last visit, {day}", { day: written(day(new Date(at))) });

/**
 * The readings of the unit's last visit by the same procedure, where this phone still has them.
 * @param {any} step @param {VisitSession} session
 * @returns {Promise<Before[]>}
 */
async function lastTime(step, session) {
  const { visit, procedure } = session;
  const earlier = (await visits()).find(
    (one) => one.unit === visit.unit && one.procedure.id === visit.procedure.id && one.record !== null && one.started_at < visit.started_at,
  );
  if (!earlier) return [];
  // A copy: the fold remembers the last events of each procedure object, and those are this visit's.
  const { entries } = fold({ ...procedure }, await eventsOf(earlier.id));
  const when = lastVisit(earlier.started_at);
  return step.entries.flatMap((/** @type {any} */ entry) => {
    const name = `${step.id}.${entry.id}`;
    const value = entry.kind === "reading" ? entries[name]?.value : null;
    return typeof value === "number" ? [{ name, when, value }] : [];
  });
}

/** Beside the entry, beside the result, or beside the rule that judges it. @param {HTMLElement} root @param {any} step @param {string} name */
function placeOf(root, step, name) {
  const rule = step.rules.find((/** @type {any} */ one) => one.reading === name);
  const read = root.querySelector(`[data-entry="${name}"] [data-part="read"]`);
  return read ?? root.querySelector(`[data-derived="${name}"] [data-part="value"]`) ?? root.querySelector(`[data-rule="${step.id}.${rule?.id}"] [data-part="words"]`);
}

/** @param {HTMLElement} root @param {any} step @param {VisitSession} session @param {Before} before */
function show(root, step, session, { name, when, value: before }) {
  const line = make("span", { class: "last-visit muted" });
  placeOf(root, step, name)?.after(line);
  session.follow(() => {
    const { value, unit } = session.judgement.quantities[name];
    const change = typeof value === "number" ? `; ${changeWords(value, before, unit)}` : "";
    say(line, `${when}: ${quantity(before, unit)}${change}.`);
  });
}

/**
 * What was found before, beside what is found now.
 * @param {HTMLElement} root
 * @param {any} step
 * @param {VisitSession} session
 */
export async function showLastVisit(root, step, session) {
  const known = [...lastAccepted(step, session), ...accepted(step, session)];
  for (const before of known) show(root, step, session, before);
  const names = new Set(known.map(({ name }) => name));
  for (const before of await lastTime(step, session)) if (!names.has(before.name)) show(root, step, session, before);
}
