// What need not be judged again: while one number is typed, all that does not rest on it stays as it was.

/** What the last judgement of a procedure found. Cells, instruments and results are never changed in place. */
export class Kept {
  /** @param {any} plan */
  constructor(plan) {
    this.plan = plan;
    this.dependencies = dependenciesOf(plan);
    /** @type {any} */
    this.last = null;
  }

  /**
   * Hand the quantities that stay to this judgement, and give the results of the rules that stay.
   * @param {any} quantities nothing of them is resolved yet
   * @returns {Map<string, any>} by the rule's name; results of other rules are to be put in by the caller
   */
  takeOver(quantities) {
    const { formulas, case: judged, known } = quantities;
    const cells = new Map();
    for (const name of this.plan.entries.keys()) cells.set(name, quantities.cell(name));
    const rules = new Map();
    const { last } = this;
    if (last !== null && last.formulas === formulas && alike(last.instruments, judged.instruments)) {
      const changed = [...cells].filter(([name, cell]) => !alike(last.cells.get(name), cell)).map(([name]) => name);
      const stays = (/** @type {Set<string>} */ restsOn) => !changed.some((name) => restsOn.has(name));
      for (const [name, found] of last.known) if (stays(this.dependencies.quantities.get(name))) known.set(name, found);
      for (const [name, found] of last.rules) if (stays(this.dependencies.rules.get(name))) rules.set(name, found);
    }
    this.last = { formulas, instruments: judged.instruments, cells, known, rules };
    return rules;
  }
}

/** For each quantity and each rule the entries that it may rest on, whatever their values. @param {any} plan */
function dependenciesOf(plan) {
  const quantities = new Map();
  const rules = new Map();
  /** @param {string} name @returns {Set<string>} */
  const of = (name) => {
    if (!quantities.has(name)) {
      const entry = plan.entries.get(name);
      const parts = entry ? [entry] : plan.derived.get(name);
      const names = parts.flatMap((/** @type {any} */ one) => [...conditioned(one), ...Object.values(one.inputs ?? {}).map(nameOf)]);
      quantities.set(name, gathered(names, entry ? [name] : []));
    }
    return quantities.get(name);
  };
  /** @param {(string | null)[]} names @param {string[]} own */
  const gathered = (names, own = []) => {
    const found = new Set(own);
    for (const name of names) if (name !== null) for (const one of of(name)) found.add(one);
    return found;
  };
  for (const name of [...plan.entries.keys(), ...plan.derived.keys()]) of(name);
  for (const { rules: named } of plan.steps) {
    for (const [name, rule] of named) {
      const { reading, lower, upper, entry, entries = [] } = rule;
      rules.set(name, gathered([...conditioned(rule), ...[reading, lower, upper, entry].map(nameOf), ...(entries ?? [])]));
    }
  }
  return { quantities, rules };
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
