// Entries + data plate -> derived quantities -> limits -> rules -> steps -> record, as plain data.
// Twin of checks/engine.py, which explains it. No domain word belongs here.

import { formulas as catalogue } from "../generated/formulas.js";
import { instant } from "./entries.js";
import { problems } from "./instrument.js";
import { blank, judgeInterval } from "./interval.js";
import { alike, renewed, same } from "./kept.js";
import { add, plain, planOf, Quantities } from "./quantities.js";
import { judgeRecord, judgeSteps } from "./standing.js";

/**
 * The judgement of a case (docs/api.md, "Case and judgement"). Never throws for what a person entered.
 * What did not change since the last judgement of this procedure object is the same object as then; a part
 * that is another object says something else.
 * @param {any} procedure
 * @param {any} judged the case
 * @param {any} formulas
 * @returns {any}
 */
export function judge(procedure, judged, formulas = catalogue) {
  const plan = planOf(procedure);
  const quantities = new Quantities(plan, judged, formulas);
  const { found, stale } = plan.kept.begin(quantities);
  quantities.known = found.known;
  const { judgement: before, restsOn } = found;
  const reported = renewed(before.quantities, plan.kept.quantities, stale.quantities, (name) => plain(quantities.get(name)));
  const rules = renewed(before.rules, plan.kept.rules, stale.rules, (name) => {
    restsOn[name] = [];
    return judgeRule(plan.rules.get(name), quantities, restsOn[name]);
  });
  const steps = judgeSteps(plan.steps, quantities, rules, restsOn, before.steps, stale.steps);
  const record = steps === before.steps ? before.record : same(before.record, judgeRecord(procedure, steps));
  const parts = { quantities: reported, rules, steps, record };
  found.judgement = Object.entries(parts).every(([name, part]) => before[name] === part) ? before : parts;
  plan.kept.end(found);
  return found.judgement;
}

/** The result of one rule; the entries it rests on are added to `used`. */
function judgeRule(rule, quantities, used) {
  const { applies, missing, used: restsOn } = quantities.holds(rule.when);
  add(used, restsOn);
  if (applies === false) return blank("not_applicable");
  if (applies === null) return Object.assign(blank("not_measured"), { missing });
  return KINDS[rule.kind](rule, quantities, used);
}

function limit(rule, quantities, used) {
  const reading = quantities.get(rule.reading);
  const lower = rule.lower ? quantities.get(rule.lower) : null;
  const upper = rule.upper ? quantities.get(rule.upper) : null;
  const parts = [reading, lower, upper].filter((part) => part !== null);
  for (const part of parts) add(used, part.used);
  const result = judgeInterval(rule, found(rule.reading, reading, lower, upper, quantities), quantities.formulas);
  result.missing = missingOf(parts);
  giveReasons(result, reasonsOf(parts));
  if (parts.some((part) => part.value === null)) {
    const decided = ["no_valid_setting", "instrument_not_good_enough"].includes(result.verdict);
    if (!decided) result.verdict = withoutValue(rule, result);
    return result;
  }
  const bad = result.verdict === "no_valid_setting" ? [] : instrumentProblems(quantities, parts);
  if (bad.length) {
    result.verdict = "instrument_not_good_enough";
    result.reasons = result.reasons.filter((one) => one.code !== "uncertainty_unknown");
    giveReasons(result, bad);
  }
  return result;
}

function found(name, reading, lower, upper, quantities) {
  const entry = quantities.plan.entries.get(name);
  const measured = entry !== undefined && quantities.instrument(name) !== null;
  return {
    reading: reading.value,
    u: reading.value === null ? null : reading.u,
    nu: reading.nu,
    lower: lower?.value ?? null,
    upper: upper?.value ?? null,
    unit: reading.unit,
    uncertaintyAt: measured ? (value) => quantities.uncertaintyAt(name, value) : null,
    least: entry?.minimum ?? null,
    most: entry?.maximum ?? null,
  };
}

/** Why the readings behind these quantities cannot be judged. */
function instrumentProblems(quantities, parts) {
  const result = { reasons: [] };
  const names = [];
  for (const part of parts) add(names, part.used);
  for (const name of names) {
    const entry = quantities.plan.entries.get(name);
    if (entry.instrument === null || quantities.get(name).value === null) continue;
    const cells = quantities.cell(name);
    for (const cell of Array.isArray(cells) ? cells : [cells]) {
      giveReasons(result, problemsOf(quantities, name, entry, cell));
    }
  }
  return result.reasons;
}

function problemsOf(quantities, name, entry, cell) {
  const instrument = quantities.chosen(cell.instrument);
  if (instrument === null) return [{ code: cell.instrument ? "unknown_instrument" : "no_instrument", quantity: name }];
  const at = typeof cell.at === "string" ? cell.at : null;
  const bad = problems(instrument, cell.value, entry.unit, entry.instrument, at);
  return bad.map((one) => ({ ...one, quantity: name }));
}

function answer(rule, quantities, used) {
  const quantity = quantities.get(rule.entry);
  const result = ofEntries(rule, [quantity], used);
  const { value } = quantity;
  if (value === null) return result;
  result.reading = value;
  result.verdict = rule.is.includes(value) ? "pass" : "fail";
  if (result.verdict === "fail") result.reasons = [{ code: "answer_not_accepted", quantity: rule.entry, value }];
  return result;
}

function given(rule, quantities, used) {
  const quantity = quantities.get(rule.entry);
  const result = ofEntries(rule, [quantity], used);
  if (quantity.value === null) return result;
  const overdue = instrumentProblems(quantities, [quantity]).filter((one) => one.code === "calibration_overdue");
  const verdict = overdue.length ? "instrument_not_good_enough" : "pass";
  return Object.assign(result, { verdict, reasons: overdue });
}

function order(rule, quantities, used) {
  const parts = rule.entries.map((name) => quantities.get(name));
  const result = ofEntries(rule, parts, used);
  if (parts.some((part) => part.value === null)) return result;
  const times = parts.map((part) => instant(part.value));
  const pairs = times.slice(1).map((time, place) => [times[place], time]);
  if (pairs.every(([before, after]) => before < after)) return Object.assign(result, { verdict: "pass" });
  const code = pairs.every(([before, after]) => before <= after) ? "same_instant" : "out_of_order";
  return Object.assign(result, { verdict: "fail", reasons: [{ code }] });
}

function sameInstrument(rule, quantities, used) {
  const parts = rule.entries.map((name) => quantities.get(name));
  const result = ofEntries(rule, parts, used);
  if (parts.some((part) => part.value === null)) return result;
  const chosen = rule.entries.map((name) => [name, quantities.instrument(name)]);
  const absent = chosen.filter(([, one]) => one === null).map(([name]) => ({ code: "no_instrument", quantity: name }));
  if (absent.length) return Object.assign(result, { verdict: "instrument_not_good_enough", reasons: absent });
  const different = new Set(chosen.map(([, one]) => one.id)).size > 1;
  if (!different) return Object.assign(result, { verdict: "pass" });
  return Object.assign(result, { verdict: "fail", reasons: [{ code: "different_instruments" }] });
}

/** The result while nothing is judged: what is missing, and why a value cannot be used. */
function ofEntries(rule, parts, used) {
  for (const part of parts) add(used, part.used);
  const result = Object.assign(blank("not_measured"), { missing: missingOf(parts) });
  giveReasons(result, reasonsOf(parts));
  result.verdict = withoutValue(rule, result);
  return result;
}

/** A result that may follow later is pending, unless something was entered that cannot be used. */
function withoutValue(rule, result) {
  return rule.pending && result.missing.length && !result.reasons.length ? "pending" : "not_measured";
}

function missingOf(parts) {
  const missing = [];
  for (const part of parts) add(missing, part.missing);
  return missing;
}

/** Why the quantities have no value; one that does not exist here says so. */
function reasonsOf(parts) {
  const reasons = [];
  for (const part of parts) {
    if (part.reason !== null) reasons.push(part.reason);
    else if (part.value === null && !part.missing.length) reasons.push({ code: "no_choice_fits" });
  }
  return reasons;
}

function giveReasons(result, reasons) {
  for (const one of reasons) {
    if (!result.reasons.some((known) => alike(known, one))) result.reasons.push(one);
  }
}

const KINDS = { limit, answer, given, order, same_instrument: sameInstrument };
