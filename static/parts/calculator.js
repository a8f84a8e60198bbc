import { inLanguage, phrase } from "../language/phrase.js";
import { addressOf, fieldsOf, fillForm, readForm, typedIn } from "./calculator-form.js";
import { answer, declared, readInputs, sign } from "./calculator-reading.js";
import { mountSeries } from "./calculator-series.js";
import { make, part, say } from "./element.js";
import { failure } from "./failure.js";
import { fillWith } from "./trusted.js";
import { dateOf, number, quantity } from "./words.js";
import { offerWorking } from "./working.js";

/** @typedef {import("./calculator-reading.js").Answer} Answer */

/**
 * One formula: its form, and its result as one types. Everything is computed on the phone, nothing is sent.
 * @param {HTMLElement} root
 */
export default async function calculator(root) {
  const query = new URLSearchParams(location.search);
  const name = root.dataset.formula ?? query.get("formula") ?? "";
  if (!name) return;
  const body = part(root, "body");
  try {
    if (!root.dataset.formula) await putForm(root, body, name);
    mount(body, name, query);
  } catch (error) {
    body.replaceChildren(failure(error));
  }
}

/**
 * The kept page is the same for all formulas: the form comes from the file of all forms.
 * @param {HTMLElement} root
 * @param {HTMLElement} body
 * @param {string} name
 */
async function putForm(root, body, name) {
  const forms = await fetch(inLanguage("/calculator/forms.json")).then((response) => response.json());
  if (!Object.hasOwn(forms, name)) {
    throw Object.assign(new Error(phrase("There is no formula named {name} here. Choose one from the list of all formulas.", { name })), { code: "unknown_formula" });
  }
  say(part(root, "title"), forms[name].title);
  document.title = `${forms[name].title} - Firstwater`;
  fillWith(body, forms[name].html);
}

/** @param {HTMLElement} body @param {string} name @param {URLSearchParams} query */
function mount(body, name, query) {
  for (const field of fieldsOf(body)) if (field.dataset.kind === "series") mountSeries(field);
  fillForm(body, name, query);
  const form = /** @type {HTMLFormElement} */ (part(body, "form"));
  part(body, "compute").hidden = true;
  let left = true;
  const paint = () => compute(body, name, left);
  form.addEventListener("input", () => {
    left = false;
    paint();
  });
  form.addEventListener("change", () => {
    left = true;
    paint();
    history.replaceState(null, "", addressOf(body));
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  paint();
}

/**
 * @param {HTMLElement} body
 * @param {string} name
 * @param {boolean} left whether the input was left: a message about what is being typed waits until then
 */
function compute(body, name, left) {
  const form = readForm(body);
  const reading = readInputs(name, form);
  const found = answer(name, form, reading);
  for (const field of fieldsOf(body)) paintField(field, name, reading, found, left);
  part(body, "result").replaceChildren(...resultOf(found, reading, form.meanings));
  const judged = { formula: name, inputs: reading.values, value: found.value, unit: found.unit };
  offerWorking(part(body, "working"), found.value === null ? [] : [judged]);
}

/**
 * @param {HTMLElement} field
 * @param {string} name
 * @param {import("./calculator-reading.js").Reading} reading
 * @param {Answer} found
 * @param {boolean} left
 */
function paintField(field, name, reading, found, left) {
  const input = field.dataset.input ?? "";
  const error = reading.problems[input] ?? (found.at === input ? found.reason : "");
  if (left || !error) say(part(field, "error"), error);
  for (const place of typedIn(field)) {
    if (error && left) place.setAttribute("aria-invalid", "true");
    else if (!error) place.removeAttribute("aria-invalid");
  }
  say(part(field, "read"), readBack(field, declared(name).inputs[input], reading));
}

/** How a number was read, where that is not plain to see. @param {HTMLElement} field @param {any} about @param {import("./calculator-reading.js").Reading} reading */
function readBack(field, about, { values, shared }) {
  const value = values[field.dataset.input ?? ""];
  if (field.dataset.kind !== "number" || !Number.isFinite(value)) return "";
  const unit = about.unit === "any" ? shared : about.unit;
  const plain = /^\d+(\.\d+)?$/.test(typedIn(field)[0].value.trim()) && [unit, undefined].includes(chosenUnit(field));
  return plain ? "" : phrase("Read as {quantity}", { quantity: quantity(value, unit, 6) });
}

/** @param {HTMLElement} field */
const chosenUnit = (field) => /** @type {HTMLSelectElement | null} */ (field.querySelector('select[name$=".unit"]'))?.value;

/**
 * @param {Answer} found
 * @param {import("./calculator-reading.js").Reading} reading
 * @param {Record<string, string>} meanings
 */
function resultOf(found, reading, meanings) {
  const lacking = (/** @type {string} */ words) => make("p", { class: "lacking" }, words);
  if (found.value !== null) {
    const value = make("data", { class: "number", value: found.shown }, words(found.shown, found.shownUnit));
    return [make("p", { class: "result-value" }, value, ` ${sign(found.shownUnit)}`)];
  }
  if (found.reason) return [lacking(phrase("No result. {reason}", { reason: found.reason })), make("p", { class: "code" }, phrase("Code:"), " ", make("code", {}, found.code))];
  if (Object.keys(reading.problems).length) return [lacking(phrase("No result yet. Mend what is marked above."))];
  return [lacking(phrase("Missing: {missing}.", { missing: found.missing.map((input) => meanings[input]).join("; ") }))];
}

/** @param {any} value @param {string} unit */
function words(value, unit) {
  if (typeof value === "string") return value.replaceAll("_", " ");
  return unit === "date" ? dateOf(value) : number(value, 6);
}
