import { calculatorLink } from "./calculator-link.js";
import { make, part, say } from "./element.js";
import { failure } from "./page.js";
import { number, quantity } from "./words.js";
import { uncertaintyWords, workingOf } from "./working-lines.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {any} value @param {any} unit */
function valueWords(value, unit) {
  if (typeof value === "number") return quantity(value, unit);
  return Array.isArray(value) ? value.map((one) => number(one)).join(", ") : String(value);
}

/** What is known of a quantity, or what is missing for it. @param {any} judged @param {VisitSession} session @param {string} here */
function resultWords(judged, session, here) {
  if (judged.value !== null) return valueWords(judged.value, judged.unit);
  const refused = judged.reason?.quantity && judged.missing.includes(judged.reason.quantity);
  if (refused) return session.labels.reason({ code: "refused_input", quantity: judged.reason.quantity });
  if (judged.reason) return session.labels.reason(judged.reason);
  const names = judged.missing.map((/** @type {string} */ name) => session.labels.withPlace(name, here));
  return names.length ? `Missing: ${names.join("; ")}` : "–";
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
      body.replaceChildren(make("div", { class: "working-body", tabindex: "0", role: "group", "aria-label": "Working" }, ...parts, spread));
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
  row.hidden = judged.applies !== true;
  if (row.hidden) return;
  const used = alternatives.find((one) => one.formula === judged.formula) ?? alternatives[0];
  say(row.querySelector("dt"), used.label);
  part(row, "value").classList.toggle("lacking", judged.value === null);
  say(part(row, "value"), resultWords(judged, session, name.split(".")[0]));
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
