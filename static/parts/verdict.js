import { VERDICTS, told } from "../generated/messages.js";
import { phrase } from "../language/phrase.js";
import { band } from "./band.js";
import { make, part, redraw, say } from "./element.js";
import { expectedWords } from "./expected.js";
import { distance, number, quantity } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {string} verdict */
export function verdictWord(verdict) {
  return /** @type {any} */ (VERDICTS)[verdict]?.word ?? verdict;
}

/** Mark, word and colour together. @param {string} verdict */
export function verdictMark(verdict) {
  return make("span", { class: "verdict", "data-verdict": verdict }, verdictWord(verdict));
}

/**
 * An interval in words; its ends are rounded into it, so that none that is shown contradicts a verdict.
 * @param {number | null} lowest @param {number | null} highest @param {string} unit @param {boolean} strict
 */
function limits(lowest, highest, unit, strict) {
  if (lowest !== null && lowest === highest) return phrase("exactly {quantity}", { quantity: quantity(highest, unit) });
  const lower = lowest === null ? null : told("lower", lowest, unit);
  const upper = highest === null ? null : told("upper", highest, unit);
  if (lower !== null && upper !== null) return phrase("{lower} to {upper}", { lower: unit === "date" ? quantity(lower, unit) : number(lower), upper: quantity(upper, unit) });
  if (upper !== null) return strict ? phrase("less than {quantity}", { quantity: quantity(upper, unit) }) : phrase("at most {quantity}", { quantity: quantity(upper, unit) });
  if (lower !== null) return strict ? phrase("more than {quantity}", { quantity: quantity(lower, unit) }) : phrase("at least {quantity}", { quantity: quantity(lower, unit) });
  return null;
}

/** @param {any} rule @param {any} judged */
function limitWords(rule, judged) {
  const { reading, expanded, lower, upper, accept_lower, accept_upper, margin, unit } = judged;
  const limit = limits(lower, upper, unit, rule.strict);
  const words = [];
  if (reading !== null && limit) words.push(`${quantity(reading, unit)}${expanded ? ` ± ${quantity(told("expanded", expanded, unit), unit, 2)}` : ""}.`);
  if (limit && judged.verdict !== "no_valid_setting") words.push(phrase("Limit: {limit}.", { limit }));
  const passes = limits(accept_lower, accept_upper, unit, false);
  const isInterval = judged.verdict !== "instrument_not_good_enough"; // its ends have crossed, which is said below
  if (isInterval && passes && (accept_lower !== lower || accept_upper !== upper)) words.push(phrase("With the uncertainty counted, {passes} passes.", { passes }));
  if (margin !== null && margin !== undefined) {
    words.push(margin >= 0 ? phrase("{distance} to spare.", { distance: distance(margin, unit) }) : phrase("Missed by {distance}.", { distance: distance(-margin, unit) }));
  }
  return words;
}

/**
 * What there is to say about a judged rule: the numbers, what is missing, and why it is as it is.
 * @param {any} rule
 * @param {any} judged
 * @param {VisitSession} session
 * @param {string} [here] the step of the page
 */
export function ruleWords(rule, judged, session, here = "") {
  const words = rule.kind === "limit" ? [...limitWords(rule, judged), ...expectedWords(rule, judged, session)] : [];
  if (judged.verdict.startsWith("conditional")) words.push(/** @type {any} */ (VERDICTS)[judged.verdict].meaning);
  const refused = new Set(judged.reasons.map((/** @type {any} */ reason) => reason.quantity));
  // The input right above says by itself that it is empty.
  const own = here ? (rule.reading ?? rule.entry) : null;
  const absent = judged.missing.filter((/** @type {string} */ name) => name !== own && !refused.has(name));
  const missing = absent.map((/** @type {string} */ name) => session.labels.withPlace(name, here));
  if (missing.length > 0) words.push(phrase("Missing: {missing}.", { missing: missing.join("; ") }));
  for (const reason of judged.reasons) {
    // While nothing can be judged, only what is wrong with an entry helps; the rest follows from it.
    if (judged.verdict === "not_measured" && !reason.quantity) continue;
    const refusal = judged.missing.includes(reason.quantity);
    // What is wrong with an entry is said beside its own input.
    if (refusal && reason.quantity === own) continue;
    words.push(session.labels.reason(refusal ? { code: "refused_input", quantity: reason.quantity } : reason));
  }
  return [...new Set(words)].join(" ");
}

/** @param {any} judged */
function hasBand({ reading, lower, upper }) {
  return reading !== null && reading !== undefined && (lower !== null || upper !== null);
}

/**
 * While inputs of its own step are empty a rule has nothing to say, unless the limit is known already.
 * @param {any} judged
 * @param {string} here the step of the page
 */
function isSilent(judged, here) {
  const waits = judged.missing.length > 0 && judged.missing.some((/** @type {string} */ name) => name.startsWith(`${here}.`));
  const limit = judged.lower ?? judged.upper ?? null;
  return judged.verdict === "not_measured" && waits && limit === null && judged.reasons.length === 0;
}

/**
 * Paint one rule: only what changed is touched, so that nothing flickers and nothing is read out twice.
 * @param {HTMLElement} element
 * @param {any} rule
 * @param {VisitSession} session
 */
export function paintRule(element, rule, session) {
  const judged = session.judgement.rules[element.dataset.rule ?? ""];
  const here = (element.dataset.rule ?? "").split(".")[0];
  element.hidden = !judged || judged.verdict === "not_applicable" || isSilent(judged, here);
  if (element.hidden) return;
  const mark = part(element, "verdict");
  if (mark.dataset.verdict !== judged.verdict) mark.dataset.verdict = judged.verdict;
  say(mark, verdictWord(judged.verdict));
  say(part(element, "words"), ruleWords(rule, judged, session, here));
  const drawn = hasBand(judged) ? JSON.stringify([judged.reading, judged.expanded, judged.lower, judged.upper, judged.accept_lower, judged.accept_upper]) : "";
  if (element.dataset.drawn === drawn) return;
  element.dataset.drawn = drawn;
  const [place, picture] = [part(element, "band"), drawn ? band(judged) : null];
  if (picture && place.firstChild) redraw(place.firstChild, picture);
  else place.replaceChildren(...(picture ? [picture] : []));
}
