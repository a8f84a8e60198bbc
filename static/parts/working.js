import { phrase, phrases } from "../language/phrase.js";
import { calculatorLink } from "./calculator-link.js";
import { make, part, say } from "./element.js";
import { failure } from "./failure.js";
import { isOwned, plateAddress } from "./plate-missing.js";
import { capital, number, quantity } from "./words.js";
import { uncertaintyWords, workingOf } from "./working-lines.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {any} value @param {any} unit */
function valueWords(value, unit) {
  if (typeof value === "number") return quantity(value, unit);
  return Array.isArray(value) ? value.map((one) => number(one)).join(", ") : String(value);
}

/** What is known of a quantity, or why there is none. @param {any} judged @param {VisitSession} session */
function resultWords(judged, session) {
  if (judged.value !== null) return valueWords(judged.value, judged.unit);
  const refused = judged.reason?.quantity && judged.missing.includes(judged.reason.quantity);
  return session.labels.reason(refused ? { code: "refused_input", quantity: judged.reason.quantity } : judged.reason);
}

/**
 * How many results are still to come, and for which entries of other places they wait; plate and site as links.
 * @param {any} step
 * @param {VisitSession} session
 * @returns {(string | Node)[]}
 */
function lackingParts(step, session) {
  const names = new Set(step.derived.map((/** @type {any} */ one) => `${step.id}.${one.id}`));
  const waiting = [...names].map((name) => session.judgement.quantities[name]).filter((one) => one.applies !== false && one.value === null && one.reason === null);
  const given = session.judgement.steps[step.id].missing.filter(isOwned);
  const elsewhere = new Set([...waiting.flatMap((one) => one.missing), ...given].filter((name) => !name.startsWith(`${step.id}.`)));
  const places = [...elsewhere].flatMap((name, index) => {
    const words = session.labels.withPlace(name);
    return [index ? "; " : "", isOwned(name) ? make("a", { href: plateAddress(session, name) }, words) : words];
  });
  const results = waiting.length ? phrases("One result will appear as the readings come in.", "{count} results will appear as the readings come in.", waiting.length) : "";
  return places.length ? [results, results ? " " : "", phrase("Missing elsewhere:"), " ", ...places, "."] : [results].filter(Boolean);
}

/**
 * Say what is still to come, only when that is something else than before: the link may have the focus.
 * @param {HTMLElement} place
 * @param {any} step
 * @param {VisitSession} session
 */
export function showLacking(place, step, session) {
  const parts = lackingParts(step, session);
  const words = parts.map((one) => (typeof one === "string" ? one : one.textContent)).join("");
  place.hidden = words === "";
  if (place.textContent !== words) place.replaceChildren(...parts);
}

/**
 * A working that is laid out when it is opened, and again when its numbers change while it is open.
 * @param {HTMLDetailsElement} details
 * @param {any[]} quantities those with a formula and a value
 * @param {any} [rule] a rule of the judgement whose uncertainty belongs to it
 */
export function offerWorking(details, quantities, rule = null) {
  details.hidden = quantities.length === 0;
  const now = JSON.stringify([quantities.map(({ formula, inputs, value }) => [formula, inputs, value]), rule?.u, rule?.expanded]);
  const body = part(details, "working-body");
  const show = async () => {
    if (!details.open || details.dataset.shown === now) return;
    details.dataset.shown = now;
    try {
      const parts = (await Promise.all(quantities.map(async (one) => [...(await workingOf(one)), calculatorLink(one)]))).flat();
      const spread = rule ? uncertaintyWords(rule) : null;
      body.replaceChildren(make("div", { class: "working-body", tabindex: "0", role: "group", "aria-label": phrase("Working") }, ...parts, spread));
    } catch (error) {
      body.replaceChildren(failure(error));
    }
  };
  details.ontoggle = show;
  show();
}

/**
 * Paint one derived quantity: its value or what it lacks, and on demand how it comes about.
 * @param {HTMLElement} row
 * @param {any[]} alternatives the derived quantities of this name, of which the first that applies holds
 * @param {VisitSession} session
 */
export function paintDerived(row, alternatives, session) {
  const name = row.dataset.derived ?? "";
  const judged = session.judgement.quantities[name];
  // What only waits for entries is counted in one line, not repeated for each result.
  row.hidden = judged.applies !== true || (judged.value === null && judged.reason === null);
  if (row.hidden) return;
  const used = alternatives.find((one) => one.formula === judged.formula) ?? alternatives[0];
  say(row.querySelector("dt"), used.label);
  part(row, "value").classList.toggle("lacking", judged.value === null);
  say(part(row, "value"), resultWords(judged, session));
  offerWorking(part(row, "working"), judged.value !== null && judged.formula ? [judged] : []);
}

/**
 * The working of a rule: how its limits, and a computed reading, come about.
 * @param {HTMLElement} element
 * @param {any} rule
 * @param {any} judged
 * @param {VisitSession} session
 */
export function paintRuleWorking(element, rule, judged, session) {
  const names = [rule.reading, rule.lower, rule.upper].filter(Boolean);
  const quantities = names.map((name) => session.judgement.quantities[name]);
  const computed = quantities.filter((one) => one && one.formula && one.value !== null);
  offerWorking(part(element, "working"), computed, judged);
}
