// Where the steps and the record stand. Twin of checks/standing.py, which explains it.

import { alike } from "./kept.js";
import { add } from "./quantities.js";

const WORST_FIRST = [
  "fail",
  "no_valid_setting",
  "instrument_not_good_enough",
  "conditional_fail",
  "not_measured",
  "pending",
  "conditional_pass",
  "pass",
];
export const FAILED = WORST_FIRST.slice(0, 4);
const MET_WITHOUT_HOLD = ["pass", "conditional_pass", "pending"];
/** Defects that count while they are open; minor ones are only listed. */
const COUNTED = ["safety", "major"];
/** What keeps a record from passing, and not from being complete: its signer has nothing left to do. */
const WITHOUT_DOING = ["step_failed", "defect_unsafe", "step_not_done", "step_not_reached"];
const CONDITIONS = { pending: "rule_pending", conditional_pass: "rule_conditional_pass" };

/**
 * The standing of each step, in the order of the procedure: a step needs only steps before it.
 * Only stale steps, and those that need one whose standing changed, are looked at; the others are as `before`.
 */
export function judgeSteps(planned, quantities, rules, restsOn, before, stale) {
  const standing = { ...before };
  const steps = new Map(planned.map(({ step }) => [step.id, step]));
  const moved = new Set();
  for (const one of planned) {
    const { step } = one;
    if (!stale.has(step.id) && !step.needs.some((need) => moved.has(need.step))) continue;
    const result = stepResult(one, quantities, rules, restsOn, steps, standing);
    if (alike(before[step.id], result)) continue;
    standing[step.id] = result;
    moved.add(step.id);
  }
  return moved.size ? standing : before;
}

function stepResult(one, quantities, rules, restsOn, steps, standing) {
  const { step } = one;
  const { case: judged } = quantities;
  const said = judged.steps[step.id] ?? {};
  const result = measured(one, quantities, rules, restsOn);
  countDefects(step.id, judged.defects?.[step.id] ?? [], result);
  Object.assign(result, needs(step, steps, standing));
  result.conditions = conditionsOf(one, said, result, rules);
  result.state = stateOf(said, result);
  if (result.state === "not_applicable" && !isUnsafe(result)) result.verdict = "not_applicable";
  if (result.state === "not_done") result.verdict = worst([result.verdict, "not_measured"]);
  return result;
}

/** The verdict of the whole, whether it is complete, what keeps it from that, and under which conditions. */
export function judgeRecord(procedure, steps) {
  const stopped = stoppedOf(procedure, steps);
  const blocking = procedure.steps.flatMap((step) => blockingOf(step, steps[step.id], stopped.has(step.id)));
  const conditions = procedure.steps.flatMap((step) => steps[step.id].conditions);
  const verdict = worst(Object.values(steps).map((result) => result.verdict).filter((one) => one !== "not_applicable"));
  const incomplete = blocking.some((one) => !WITHOUT_DOING.includes(one.code));
  const summed = stopped.size ? "fail" : summedUp(verdict, conditions);
  return { verdict: summed, state: incomplete ? "incomplete" : "complete", blocking, conditions };
}

/** The steps that could not be done, and those that wait for one of them. */
function stoppedOf(procedure, steps) {
  const found = new Set();
  for (const step of procedure.steps) {
    const { state, held_by, unmet } = steps[step.id];
    const waits = state === "held" || state === "waiting";
    if (state === "not_done" || (waits && [...held_by, ...unmet].some((one) => found.has(one)))) found.add(step.id);
  }
  return found;
}

/** The worst of some verdicts; `pass` for none. */
function worst(verdicts) {
  return WORST_FIRST[Math.min(...verdicts.map((one) => WORST_FIRST.indexOf(one)), WORST_FIRST.length - 1)];
}

function summedUp(verdict, conditions) {
  if (FAILED.includes(verdict)) return "fail";
  if (verdict === "not_measured") return verdict;
  return conditions.length || verdict !== "pass" ? "conditional_pass" : "pass";
}

/** Verdict, what is missing and what they rest on, from the step's entries and rules alone. */
function measured({ step, rules: named, entries }, quantities, rules, restsOn) {
  const { applies, missing, used } = quantities.holds(step.when);
  const verdicts = [];
  for (const [name, rule] of named) {
    const result = rules[name];
    if (rule.weight !== "judge" || result.verdict === "not_applicable") continue;
    verdicts.push(result.verdict);
    add(used, restsOn[name]);
    if (result.verdict !== "pending") add(missing, result.missing);
  }
  for (const [name, entry] of entries) {
    const quantity = quantities.get(name);
    if (entry.required) add(used, quantity.used);
    if (quantity.value === null && (quantity.reason !== null || entry.required)) add(missing, quantity.missing);
  }
  const verdict = worst(missing.length ? [...verdicts, "not_measured"] : verdicts);
  return { verdict, missing, basis: basisOf(quantities, used), applies: applies !== false };
}

/** What the step's open defects mean: one that makes it unsafe fails it, whatever was measured. */
function countDefects(name, cells, result) {
  const counted = cells.map((cell) => [cell, severityOf(cell)]).filter(([, severity]) => severity !== null);
  result.defects = counted.map(([cell, severity]) => ({ defect: cell.item ?? null, severity }));
  if (counted.length) result.basis[`${name}#defect`] = counted.map(([cell]) => mark(cell));
  if (isUnsafe(result)) result.verdict = "fail";
}

/** How an open defect counts; null for one that is closed or minor. In a conflict the worse one counts. */
function severityOf(cell) {
  const found = (cell.conflict ?? [cell]).filter((one) => !one.closed).map((one) => one.severity);
  return COUNTED.find((severity) => found.includes(severity)) ?? null;
}

const isUnsafe = (result) => result.defects.some((one) => one.severity === "safety");

/** The event, or else the value, behind each entry that has one. */
function basisOf(quantities, names) {
  const basis = {};
  for (const name of names.sort()) {
    const cell = quantities.cell(name);
    if (cell !== null) basis[name] = mark(cell);
  }
  return basis;
}

function mark(cell) {
  if (Array.isArray(cell)) return cell.map(mark);
  if ("conflict" in cell) return cell.conflict.map(mark);
  return cell.id ?? cell.value ?? null;
}

function needs(step, steps, standing) {
  const unmet = step.needs.filter((need) => !isMet(need, steps.get(need.step), standing[need.step]));
  return {
    held_by: unmet.filter((need) => need.hold).map((need) => need.step),
    unmet: unmet.filter((need) => !need.hold).map((need) => need.step),
  };
}

function isMet(need, step, result) {
  if (result.state === "not_applicable") return !isUnsafe(result) && (!result.applies || step.optional);
  const accepted = need.hold ? ["pass"] : MET_WITHOUT_HOLD;
  return result.state === "done" && accepted.includes(result.verdict);
}

function stateOf(said, result) {
  if (!result.applies || isSaid(said.not_applicable)) return "not_applicable";
  if (isSaid(said.not_done)) return "not_done";
  if (result.held_by.length) return "held";
  if (result.unmet.length && !isSaid(said.override)) return "waiting";
  if (!isSaid(said.done)) return "open";
  return alike(said.done.seen, result.basis) ? "done" : "recheck";
}

const isSaid = (statement) => statement !== undefined && statement !== null;

/** Under which conditions the step counts. */
function conditionsOf({ step, rules: named }, said, result, rules) {
  const name = step.id;
  const major = result.defects.filter((one) => one.severity === "major");
  const open = major.map(({ defect }) => ({ code: "defect_open", step: name, defect }));
  if (!result.applies) return open;
  if (isSaid(said.not_applicable)) {
    return [{ code: "step_not_applicable", step: name, reason: reasonOf(said.not_applicable) }, ...open];
  }
  const found = [];
  if (isSaid(said.override)) {
    const reason = reasonOf(said.override);
    for (const need of result.unmet) found.push({ code: "prerequisite_overridden", step: name, needs: need, reason });
  }
  for (const [ruleName, rule] of named) {
    const code = CONDITIONS[rules[ruleName].verdict];
    if (rule.weight === "judge" && code) found.push({ code, step: name, rule: ruleName });
  }
  return [...found, ...open];
}

/** A reason given with a statement is a text, or a code with a text. */
function reasonOf(said) {
  const reason = said.reason ?? null;
  return reason !== null && typeof reason === "object" ? (reason.text ?? null) : reason;
}

/** What of a step keeps the record from being complete, and what keeps it from passing. */
function blockingOf(step, result, stopped) {
  const name = step.id;
  const unsafe = result.defects.filter((one) => one.severity === "safety");
  const found = unsafe.map(({ defect }) => ({ code: "defect_unsafe", step: name, defect }));
  if (result.state === "not_applicable") {
    return result.applies && !step.optional ? [...found, { code: "step_not_optional", step: name }] : found;
  }
  if (!stopped && (result.missing.length || result.verdict === "not_measured")) found.push({ code: "step_missing", step: name, missing: result.missing });
  if (FAILED.includes(result.verdict)) found.push({ code: "step_failed", step: name, verdict: result.verdict });
  if (stopped) found.push({ code: result.state === "not_done" ? "step_not_done" : "step_not_reached", step: name });
  else if (result.state !== "done") found.push({ code: `step_${result.state}`, step: name });
  return found;
}
