import { formulas } from "../generated/formulas.js";
import { told } from "../generated/messages.js";
import { unitLabel } from "../generated/units.js";
import { ENGLISH, language, phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { fillWith } from "./trusted.js";
import { number, quantity } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @type {Promise<any> | null} */
let templates = null;

/** The layouts of all formulas; kept on the phone with the app's other files. */
function load() {
  templates ??= fetch(language === ENGLISH ? "/static/generated/working.json" : `/static/generated/working.${language}.json`).then((answer) => answer.json());
  templates.catch(() => (templates = null));
  return templates;
}

/** @param {unknown} text */
const escaped = (text) => String(text).replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

/** A number with a power of ten needs its own row; words stay words. @param {any} value @returns {string} */
function amount(value) {
  if (value === null || value === undefined) return `<mtext>${escaped(phrase("not given"))}</mtext>`;
  if (Array.isArray(value)) return `<mrow><mo>[</mo>${value.map(amount).join("<mo>,</mo>")}<mo>]</mo></mrow>`;
  if (typeof value !== "number") return `<mtext>${escaped(value)}</mtext>`;
  return value < 0 ? `<mrow><mo>(</mo><mn>${number(value, 6)}</mn><mo>)</mo></mrow>` : `<mn>${number(value, 6)}</mn>`;
}

/** @param {string} template @param {Record<string, string>} marked */
const filled = (template, marked) => template.replace(/\{(#?[^{}]+)\}/g, (_, mark) => marked[mark] ?? mark);

/** @param {string} body MathML from our own templates */
function math(body) {
  const place = make("div", { class: "equation" });
  fillWith(place, `<math display="block"><mrow>${body}</mrow></math>`);
  return place;
}

/** @param {any} value @param {string} unit */
function resultOf(value, unit) {
  const label = unitLabel(unit);
  return amount(value) + (label ? `<mspace width="0.3em"/><mtext>${escaped(label)}</mtext>` : "");
}

/**
 * One equation: with its symbols, then with the numbers put in.
 * @param {{symbol: string, formula: string | null, meaning: string, unit: string}} line
 * @param {any} value
 * @param {Record<string, string>} symbols
 * @param {Record<string, string>} amounts
 */
function equation({ symbol, formula, meaning, unit }, value, symbols, amounts) {
  const result = `<mo>=</mo>${resultOf(value, unit)}`;
  const lines = formula
    ? [math(`${symbol}<mo>=</mo>${filled(formula, symbols)}`), math(`${symbol}<mo>=</mo>${filled(formula, amounts)}${result}`)]
    : [math(`${symbol}${result}`)];
  return make("div", {}, make("p", {}, meaning), ...lines);
}

/**
 * The working of a derived quantity: its named steps, the formula with the numbers, and the source.
 * @param {any} judged a quantity of the judgement that has a value and a formula
 * @returns {Promise<HTMLElement[]>}
 */
export async function workingOf(judged) {
  const page = (await load())[judged.formula];
  const formula = /** @type {any} */ (formulas)[judged.formula];
  const used = Object.fromEntries(
    Object.entries(formula.inputs).map(([name, declared]) => [name, judged.inputs[name] ?? /** @type {any} */ (declared).default ?? null]),
  );
  const form = page.forms[page.choices.map((/** @type {string} */ name) => String(used[name])).join("|")];
  const steps = formula.stepValues(judged.inputs);
  const named = form.steps.map((/** @type {any} */ step) => ({ ...step, value: steps[step.mark.slice(1)] }));
  const symbols = Object.fromEntries([
    ...Object.entries(page.inputs).map(([name, input]) => [name, /** @type {any} */ (input).symbol]),
    ...named.map((/** @type {any} */ step) => [step.mark, step.symbol]),
  ]);
  const amounts = Object.fromEntries([
    ...Object.entries(used).map(([name, value]) => [name, amount(value)]),
    ...named.map((/** @type {any} */ step) => [step.mark, amount(step.value)]),
  ]);
  const whole = { symbol: page.symbol, formula: form.formula, meaning: page.title, unit: judged.unit };
  return [
    ...named.map((/** @type {any} */ step) => equation(step, step.value, symbols, amounts)),
    equation(whole, judged.value, symbols, amounts),
    ...page.sources.map((/** @type {string} */ source) => make("p", { class: "source muted" }, phrase("Source: {source}", { source }))),
  ];
}

/**
 * How the uncertainty of a reading was counted; null where none was.
 * @param {any} judged a rule of the judgement
 */
export function uncertaintyWords(judged) {
  if (!judged.expanded || judged.u === null) return null;
  const { u, expanded, unit, k } = judged;
  const amounts = { standard: quantity(u, unit, 2), k: number(k ?? 2, 3), expanded: quantity(told("expanded", expanded, unit), unit, 2) };
  return make("p", {}, phrase("Standard uncertainty of the reading {standard}; expanded, with k = {k}, {expanded}.", amounts));
}
