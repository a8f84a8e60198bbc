// Entries and derived quantities, resolved as a graph. Twin of checks/quantities.py, which explains it.

import { days, instant, readEntry } from "./entries.js";
import { ENTERED } from "./fold.js";
import { contributions, propertyOf, standardUncertainty } from "./instrument.js";
import { Kept } from "./kept.js";
import { combined, repeated, UNKNOWN } from "./uncertainty.js";

/** Whose values are set beside the steps. */
const OWNERS = ["plate", "site", "baseline"];

/** A value, or why there is none; `applies` is null while what decides it is missing. */
function quantity(unit, formula = null) {
  return { value: null, unit, u: 0, formula, inputs: {}, missing: [], reason: null, applies: true, nu: null, slopes: new Map(), used: [] };
}

/** As it is reported (docs/api.md); made once, since a quantity that stays is reported again. */
export function plain(found) {
  const { value, unit, u, formula, inputs, missing, reason, applies } = found;
  found.reported ??= { value, unit, u, formula, inputs, missing, reason, applies };
  return found.reported;
}

/** A procedure, indexed by the names of quantities. */
export function planOf(procedure) {
  const known = PLANS.get(procedure);
  if (known) return known;
  const plan = { entries: new Map(), derived: new Map(), settable: new Map(), rules: new Map(), steps: [] };
  for (const owner of OWNERS) {
    for (const entry of procedure[owner] ?? []) {
      plan.entries.set(`${owner}.${entry.id}`, entry);
      plan.settable.set(`${owner}.${entry.id}`, [owner, entry.id]);
    }
  }
  for (const step of procedure.steps) {
    const named = (/** @type {any[]} */ parts) => parts.map((part) => [`${step.id}.${part.id}`, part]);
    const entries = named(step.entries);
    const rules = named(step.rules);
    plan.steps.push({ step, entries, rules });
    for (const [name, rule] of rules) plan.rules.set(name, rule);
    for (const [name, entry] of entries) plan.entries.set(name, entry);
    for (const [name, one] of named(step.derived)) plan.derived.set(name, [...(plan.derived.get(name) ?? []), one]);
  }
  plan.kept = new Kept(plan);
  PLANS.set(procedure, plan);
  return plan;
}

const PLANS = new WeakMap();

/** The quantities of one case, each resolved when it is first asked for. */
export class Quantities {
  constructor(plan, judged, formulas) {
    this.plan = plan;
    this.case = judged;
    this.formulas = formulas;
    this.known = new Map();
  }

  get(name) {
    let found = this.known.get(name);
    if (found === undefined) {
      const entry = this.plan.entries.get(name);
      found = entry ? this.entry(name, entry) : this.derived(name, this.plan.derived.get(name));
      this.known.set(name, found);
    }
    return found;
  }

  /** What was entered under this name: a cell, a list of cells, a conflict, or null. */
  cell(name) {
    const set = this.plan.settable.get(name);
    const entered = set === undefined || ENTERED.includes(set[0]) ? (this.case.entries[name] ?? null) : null;
    if (set === undefined || entered !== null) return entered;
    const cell = this.case[set[0]]?.[set[1]] ?? null;
    const usual = this.plan.entries.get(name).default;
    return cell === null && usual !== null ? { value: usual } : cell;
  }

  /** The instrument of a reading, or of the last reading of a series. */
  instrument(name) {
    return this.chosen(this.instrumentId(name));
  }

  instrumentId(name) {
    let cell = this.cell(name);
    if (Array.isArray(cell)) cell = cell[cell.length - 1];
    return cell?.instrument;
  }

  chosen(id) {
    return typeof id === "string" && Object.hasOwn(this.case.instruments, id) ? this.case.instruments[id] : null;
  }

  /** The standard uncertainty that a reading of this value has; 0 where no instrument is meant. */
  uncertaintyAt(name, value) {
    const entry = this.plan.entries.get(name);
    const instrument = this.instrument(name);
    if (instrument === null) return entry.instrument === null ? 0 : null;
    return standardUncertainty(instrument, value, entry.unit, this.formulas);
  }

  /** Whether all conditions hold (null: not known yet), what is missing for that, and what it rests on. */
  holds(conditions) {
    if (conditions === null) return { applies: true, missing: [], used: [] };
    const missing = [];
    const used = [];
    let unknown = false;
    for (const condition of conditions) {
      const found = this.get(condition.quantity);
      add(used, found.used);
      const holds = holdsFor(condition, found);
      if (holds === false) return { applies: false, missing: [], used };
      if (holds === null) {
        unknown = true;
        add(missing, found.missing.length ? found.missing : [condition.quantity]);
      }
    }
    return { applies: unknown ? null : true, missing, used };
  }

  entry(name, entry) {
    const { applies, missing, used } = this.holds(entry.when);
    const found = quantity(entry.unit);
    Object.assign(found, { applies, missing, used: add(used, [name]) });
    if (!applies) return found;
    const { value, reason } = readEntry(entry, this.cell(name));
    found.reason = reason === null ? null : { ...reason, quantity: name };
    if (value === null) {
      found.missing = [name];
      return found;
    }
    found.value = value;
    if (entry.kind === "reading" || entry.kind === "series") {
      const { u, at } = this.leastCertain(name, Array.isArray(value) ? value : [value]);
      found.u = u;
      if (u !== 0) found.slopes.set(name, [1, this.contribution(name, at)]);
    }
    return found;
  }

  /** The greatest of the readings' uncertainties, and the reading that has it. */
  leastCertain(name, values) {
    let found = { u: -1, at: values[0] };
    for (const at of values) {
      const u = this.uncertaintyAt(name, at);
      if (u === null) return { u, at };
      if (u > found.u) found = { u, at };
    }
    return found;
  }

  /** What a reading of this value brings into everything that is computed from it. */
  contribution(name, value) {
    const instrument = this.instrument(name);
    const { unit } = this.plan.entries.get(name);
    const known = instrument === null ? null : contributions(instrument, value, unit, this.formulas);
    return known === null ? UNKNOWN : { ...known, instrument: this.instrumentId(name), degrees: null };
  }

  derived(name, alternatives) {
    const used = [];
    for (const one of alternatives) {
      const { applies, missing, used: restsOn } = this.holds(one.when);
      add(used, restsOn);
      if (applies === null) return Object.assign(quantity(one.unit), { applies, missing, used });
      if (applies) {
        const found = Object.assign(quantity(one.unit, one.formula), { used });
        this.compute(name, one, found);
        return found;
      }
    }
    return Object.assign(quantity(alternatives[0].unit), { applies: false, used });
  }

  compute(name, derived, found) {
    const sources = {};
    const leftOut = {};
    for (const [input, given] of Object.entries(derived.inputs)) this.take(input, given, found, sources, leftOut);
    if (found.missing.length || found.reason !== null) return;
    if (derived.formula === null) {
      found.value = found.inputs.value ?? null;
      found.missing = [...(leftOut.value ?? [])];
    } else {
      this.evaluate(name, derived.formula, found, leftOut);
    }
    if (found.value !== null) this.propagate(derived.formula, found, sources);
  }

  /** One input: its value, or why it cannot be had. A left-out optional entry is the formula's business. */
  take(input, given, found, sources, leftOut) {
    if (typeof given === "object" && "value" in given) {
      found.inputs[input] = given.value;
      return;
    }
    if (typeof given === "object" && "instrument" in given) {
      this.takeProperty(input, given, found);
      return;
    }
    const { quantity: name, newest } = typeof given === "object" ? given : { quantity: given, newest: 0 };
    const source = this.get(name);
    add(found.used, source.used);
    if (source.value !== null && newest > 0 && source.value.length < newest) {
      add(found.missing, [name]);
    } else if (source.value !== null) {
      found.inputs[input] = this.asInput(name, source.value, newest);
      sources[input] = { name, source: this.newest(name, source, newest) };
    } else if (source.reason !== null) {
      found.reason ??= source.reason;
      add(found.missing, source.missing);
    } else if (source.applies === false || this.optional(name)) {
      leftOut[input] = [name];
    } else {
      add(found.missing, source.missing);
    }
  }

  /** A series as far as it is taken: what was read before does not make the newest readings less certain. */
  newest(name, source, newest) {
    if (newest === 0 || !source.slopes.size) return source;
    const { at } = this.leastCertain(name, source.value.slice(-newest));
    return { ...source, slopes: new Map([[`${name} newest ${newest}`, [1, this.contribution(name, at)]]]) };
  }

  takeProperty(input, { instrument: name, property }, found) {
    const reading = this.get(name);
    add(found.used, reading.used);
    const instrument = this.instrument(name);
    if (instrument === null) {
      if (reading.value === null) add(found.missing, reading.missing.length ? reading.missing : [name]);
      else found.reason ??= { code: "no_instrument", quantity: name };
      return;
    }
    const value = Array.isArray(reading.value) ? reading.value[reading.value.length - 1] : reading.value;
    const number = propertyOf(instrument, property, value, reading.unit ?? "1");
    if (number !== null) found.inputs[input] = number;
    else found.reason ??= { code: "instrument_incomplete", name: instrument.name ?? null, quantity: name };
  }

  asInput(name, value, newest) {
    if (newest > 0) return value.slice(-newest);
    const counted = COUNTED[this.plan.entries.get(name)?.kind];
    return counted ? counted(value) : value;
  }

  optional(name) {
    const entry = this.plan.entries.get(name);
    return entry !== undefined && !entry.required;
  }

  evaluate(name, formula, found, leftOut) {
    const { value, reason } = this.formulas[formula].evaluate(found.inputs);
    found.value = value;
    if (reason === null) return;
    if (reason.code === "missing_input" && reason.input in leftOut) add(found.missing, leftOut[reason.input]);
    else found.reason = { ...reason, quantity: name };
  }

  /** u from the sensitivities; a reading that comes in twice does not count twice. */
  propagate(formula, found, sources) {
    const incoming = Object.entries(sources)
      .map(([input, { name, source }]) => [input, this.slopes(formula, input, name, source, found)])
      .filter(([, slopes]) => slopes.size);
    if (!incoming.length) return;
    const factors = formula === null ? { value: 1 } : this.formulas[formula].sensitivities(found.inputs);
    for (const [input, slopes] of incoming) {
      const factor = factors[input] ?? NaN;
      for (const [key, [slope, brought]] of slopes) {
        found.slopes.set(key, [(found.slopes.get(key)?.[0] ?? 0) + factor * slope, brought]);
      }
    }
    Object.assign(found, combined(found.slopes, this.formulas));
  }

  /** What comes in through one input; repeats bring their scatter, and the meter's share at their mean. */
  slopes(formula, input, name, source, found) {
    if (formula === null || !this.formulas[formula].inputs[input].repeats) return source.slopes;
    const values = found.inputs[input];
    const middle = this.formulas.series_mean.evaluate({ readings: values }).value;
    const slopes = new Map();
    if (source.slopes.size && middle !== null) slopes.set(`${name} mean of ${values.length}`, [1, this.contribution(name, middle)]);
    const scatter = repeated(values, this.formulas);
    if (scatter !== null) slopes.set(`${name} scatter of ${values.length}`, [1, scatter]);
    return slopes;
  }
}

/** How what is a text becomes the number that a formula takes. */
const COUNTED = { instant: (/** @type {string} */ text) => Date.parse(instant(text)), date: days };

function holdsFor(condition, found) {
  if (found.applies !== true) return found.applies;
  if (found.value === null) return condition.given && found.reason === null ? false : null;
  return condition.given ? true : condition.is.includes(found.value);
}

/** Add the names that are not there yet, in their order. */
export function add(names, more) {
  for (const name of more) if (!names.includes(name)) names.push(name);
  return names;
}
