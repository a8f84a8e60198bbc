import { formulas } from "../generated/formulas.js";
import { inLanguage, phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { dateOf } from "./words.js";

/**
 * The way from a computed quantity to its formula in the calculator, with the same numbers put in; null in the
 * calculator itself.
 * @param {any} judged a quantity of the judgement with its formula and inputs
 */
export function calculatorLink({ formula, inputs, unit }) {
  if (location.pathname.startsWith("/calculator")) return null;
  const query = new URLSearchParams({ formula });
  const { inputs: declared, unit: resultUnit } = /** @type {any} */ (formulas)[formula];
  for (const [name, value] of Object.entries(inputs)) {
    for (const one of [value].flat()) if (one !== null && one !== undefined) query.append(name, written(one, declared[name]));
  }
  if (resultUnit === "any" && unit) query.set("any.unit", unit);
  return make("p", {}, make("a", { class: "button quiet small", href: inLanguage(`/calculator/formula?${query}`) }, phrase("Open in the calculator")));
}

/** @param {any} value @param {any} about the input's declaration */
function written(value, about) {
  if (about?.unit === "date") return dateOf(value);
  return value === Infinity ? "inf" : String(value);
}
