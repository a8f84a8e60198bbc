// What need not be judged again. A changed entry makes stale what rests on it, and nothing else: the quantities
// computed from it, their rules, the steps of these. All other results stay the very same objects.

import { touchedBetween } from "./fold.js";

/** Cells, instruments, settings, statements and results are never changed in place, so that they may be kept. */
export class Kept {
  /** @param {any} plan */
  constructor(plan) {
    this.plan = plan;
    this.quantities = [...plan.entries.keys(), ...plan.derived.keys()];
    this.rules = [...plan.rules.keys()];
    this.graph = graphOf(plan);
    /** @type {any} */
    this.last = null;
  }

  /**
   * Begin a judgement: what is known from the last one, and the names of what has to be found anew.
   * The last one is taken away until `end` puts one in its place, so that an error on the way keeps nothing wrong.
   * @param {any} quantities nothing of them is resolved yet
   * @returns {{found: any, stale: {quantities: Set<string>, rules: Set<string>, steps: Set<string>}}}
   */
  begin(quantities) {
    const { formulas, case: judged } = quantities;
    const { last } = this;
    this.last = null;
    const found = last?.formulas === formulas ? last : this.nothing(formulas);
    const stale = found === last ? this.staleSince(found, quantities) : this.everything(found, quantities);
    const { instruments, entries, plate, site, baseline } = judged;
    Object.assign(found, { instruments, entries, settings: [plate, site, baseline] });
    for (const name of stale.quantities) found.known.delete(name);
    return { found, stale };
  }

  /** @param {any} found what the judgement has found, to be kept for the next one */
  end(found) {
    this.last = found;
  }

  /** @param {any} formulas */
  nothing(formulas) {
    const empty = { quantities: {}, rules: {}, steps: {}, record: null };
    return { formulas, judgement: empty, known: new Map(), cells: new Map(), said: new Map(), restsOn: {} };
  }

  /** @param {any} found @param {any} quantities */
  everything(found, quantities) {
    for (const name of this.plan.entries.keys()) found.cells.set(name, quantities.cell(name));
    for (const { step } of this.plan.steps) found.said.set(step.id, saidOf(quantities.case, step.id));
    return {
      quantities: new Set(this.quantities),
      rules: new Set(this.rules),
      steps: new Set(found.said.keys()),
    };
  }

  /** @param {any} found @param {any} quantities */
  staleSince(found, quantities) {
    const stale = { quantities: this.changedEntries(found, quantities), rules: new Set(), steps: new Set() };
    const { dependents, rulesOf, stepsOf, stepOfRule } = this.graph;
    for (const name of stale.quantities) {
      // What is added to a set while it is walked through is walked through, too.
      for (const one of dependents.get(name) ?? []) stale.quantities.add(one);
      for (const one of rulesOf.get(name) ?? []) stale.rules.add(one);
      for (const one of stepsOf.get(name) ?? []) stale.steps.add(one);
    }
    for (const name of stale.rules) stale.steps.add(stepOfRule.get(name));
    for (const { step } of this.plan.steps) {
      const said = saidOf(quantities.case, step.id);
      if (!alike(found.said.get(step.id), said)) stale.steps.add(step.id);
      found.said.set(step.id, said);
    }
    return stale;
  }

  /**
   * The entries with another cell than last time, or with another specification behind the same cell.
   * @param {any} found @param {any} quantities
   * @returns {Set<string>}
   */
  changedEntries({ cells, entries, instruments, settings }, quantities) {
    const { plate, site, baseline } = quantities.case;
    const others = changedKeys(instruments, quantities.case.instruments);
    const touched = others.size ? null : touchedBetween(entries, quantities.case.entries);
    const isSetAnew = [plate, site, baseline].some((one, index) => one !== settings[index]);
    const names = touched && (isSetAnew ? [...this.plan.settable.keys(), ...touched] : touched);
    const changed = new Set();
    for (const name of names ?? this.plan.entries.keys()) {
      if (!this.plan.entries.has(name)) continue;
      const cell = quantities.cell(name);
      if (!alike(cells.get(name), cell) || namesAny(cell, others)) changed.add(name);
      cells.set(name, cell);
    }
    return changed;
  }
}

/**
 * The results with the stale ones found anew; what comes out the same stays the same object.
 * @template T
 * @param {Record<string, T>} before
 * @param {string[]} names of all results
 * @param {Iterable<string>} stale
 * @param {(name: string) => T} find
 * @returns {Record<string, T>}
 */
export function renewed(before, names, stale, find) {
  let after = before;
  for (const name of stale) {
    const one = find(name);
    if (!alike(before[name], one)) {
      if (after === before) after = copied(before, names);
      after[name] = one;
    }
  }
  return after;
}

/** A copy; with hundreds of names four times faster than the spread. @param {any} table @param {string[]} names */
function copied(table, names) {
  /** @type {any} */
  const copy = {};
  for (const name of names) copy[name] = table[name];
  return copy;
}

/** The former value where both say the same. @template T @param {T} before @param {T} after @returns {T} */
export const same = (before, after) => (alike(before, after) ? before : after);

/** What was said about a step, and its defects. @param {any} judged @param {string} step */
const saidOf = ({ steps, defects }, step) => ({ said: steps[step] ?? null, defects: defects?.[step] ?? null });

/** @param {any} one @param {any} other @returns {Set<string>} */
function changedKeys(one, other) {
  if (one === other) return new Set();
  return new Set([...Object.keys(one), ...Object.keys(other)].filter((name) => !alike(one[name], other[name])));
}

/** @param {any} cell @param {Set<string>} instruments @returns {boolean} */
function namesAny(cell, instruments) {
  if (Array.isArray(cell)) return cell.some((one) => namesAny(one, instruments));
  return instruments.has(cell?.instrument);
}

/** For each quantity the quantities, rules and steps that name it: the procedure's references, turned round. @param {any} plan */
function graphOf(plan) {
  const dependents = new Map();
  const rulesOf = new Map();
  const stepsOf = new Map();
  const stepOfRule = new Map();
  for (const [name, entry] of plan.entries) refer(dependents, conditioned(entry), name);
  for (const [name, alternatives] of plan.derived) {
    for (const one of alternatives) refer(dependents, [...conditioned(one), ...Object.values(one.inputs).map(nameOf)], name);
  }
  for (const { step, entries, rules } of plan.steps) {
    refer(stepsOf, [...conditioned(step), ...entries.map((/** @type {any} */ [name]) => name)], step.id);
    for (const [name, rule] of rules) {
      const { reading, lower, upper, entry, entries: several } = rule;
      refer(rulesOf, [...conditioned(rule), ...[reading, lower, upper, entry].map(nameOf), ...(several ?? [])], name);
      stepOfRule.set(name, step.id);
    }
  }
  return { dependents, rulesOf, stepsOf, stepOfRule };
}

/** @param {Map<string, Set<string>>} table @param {(string | null)[]} names @param {string} to */
function refer(table, names, to) {
  for (const name of names) {
    if (name === null) continue;
    const known = table.get(name) ?? new Set();
    table.set(name, known.add(to));
  }
}

/** @param {any} part @returns {string[]} */
function conditioned({ when }) {
  return (when ?? []).map((/** @type {any} */ condition) => condition.quantity);
}

/** The quantity behind an input or the end of an interval; null for a literal. @param {any} given @returns {string | null} */
function nameOf(given) {
  if (typeof given !== "object" || given === null) return given ?? null;
  return given.quantity ?? given.instrument ?? null;
}

/** Deep equality of JSON values. @param {any} one @param {any} other @returns {boolean} */
export function alike(one, other) {
  if (Object.is(one, other)) return true;
  if (one === null || other === null || typeof one !== "object" || typeof other !== "object") return false;
  const names = Object.keys(one);
  if (Array.isArray(one) !== Array.isArray(other) || names.length !== Object.keys(other).length) return false;
  return names.every((name) => Object.hasOwn(other, name) && alike(one[name], other[name]));
}
