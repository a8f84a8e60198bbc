import { inLanguage } from "../language/phrase.js";
import { slugOf, stepsInOrder } from "./progress.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** What the office enters and the unit shows: it can be given or corrected in a visit. */
export const OWNERS = ["plate", "site"];

/** @param {string} name */
export const isOwned = (name) => OWNERS.includes(name.split(".")[0]);

/**
 * The plate and site values that steps of this visit lack, each with those steps.
 * @param {VisitSession} session
 * @returns {Map<string, any[]>}
 */
export function missingValues(session) {
  const found = new Map();
  for (const step of stepsInOrder(session)) {
    for (const name of session.judgement.steps[step.id].missing.filter(isOwned)) found.set(name, [...(found.get(name) ?? []), step]);
  }
  return found;
}

/** What an input on the page of plate and site is called. @param {string} name a quantity */
export const inputName = (name) => name.replace(".", "_");

/**
 * The page of plate and site, or the place of one value on it.
 * @param {VisitSession} session
 * @param {string | null} [name] a quantity
 */
export function plateAddress(session, name = null) {
  const page = inLanguage(`/field/${slugOf(session.visit.procedure)}/plate?visit=${session.visit.id}`);
  return name === null ? page : `${page}#value_${inputName(name)}`;
}

/** @param {VisitSession} session @param {string} name a quantity @returns {any} the office's cell, null without one */
export function officeCell(session, name) {
  const [owner, own] = name.split(".");
  return session.case[/** @type {"plate" | "site"} */ (owner)]?.[own] ?? null;
}

/**
 * The values that were read at the unit in this visit.
 * @param {VisitSession} session
 * @returns {{name: string, entry: any, cell: any}[]}
 */
export function valuesRead(session) {
  return OWNERS.flatMap((owner) =>
    session.procedure[/** @type {"plate" | "site"} */ (owner)].flatMap((/** @type {any} */ entry) => {
      const name = `${owner}.${entry.id}`;
      const cell = session.case.entries[name];
      return cell ? [{ name, entry, cell }] : [];
    }),
  );
}
