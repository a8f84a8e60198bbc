// The texts of this page in the reader's language. The key of a text is the English one; its {names} are filled in after
// it was translated. `start.js` fetches the words of another language before it starts anything that says some.

/** @typedef {Record<string, string | number | null | undefined>} Values */
/** @typedef {Record<string, string | [one: string, many: string]>} Words */

export const ENGLISH = "en";

/** The language of the page: what its element says, English where it says nothing of ours. A worker is named by it. */
export const language = (typeof document === "undefined" ? self.name : document.documentElement.lang) || ENGLISH;

/** @type {Words} */
let words = {};

/** @param {Words} found */
export function learn(found) {
  words = found;
}

/** @param {string} text @param {Values} values */
const filled = (text, values) => text.replace(/\{(\w+)\}/g, (mark, name) => String(values[name] ?? mark));

/**
 * A text in the reader's language.
 * @param {string} text in English, with {names}
 * @param {Values} [values]
 */
export function phrase(text, values = {}) {
  const found = words[text];
  return filled(typeof found === "string" ? found : text, values);
}

/** A text that is kept in English and said when it is shown. @param {string} text */
export const noop = (text) => text;

/**
 * The form of a text for a number, which fills in {count}.
 * @param {string} one
 * @param {string} many
 * @param {number} count
 * @param {Values} [values]
 */
export function phrases(one, many, count, values = {}) {
  const found = words[one];
  const forms = Array.isArray(found) ? found : [one, many];
  return filled(forms[plural.select(count) === "one" ? 0 : 1], { count, ...values });
}

const plural = new Intl.PluralRules(language);

const sign = language === ENGLISH ? "." : (new Intl.NumberFormat(language).formatToParts(1.5).find(({ type }) => type === "decimal")?.value ?? ".");

/** A number that is written with a decimal point, as the reader writes it. @param {string} text */
export const decimal = (text) => (sign === "." ? text : text.replaceAll(".", sign));

/** A day given as 2026-11-25, as the reader writes it. @param {string} day */
export function written(day) {
  if (language === ENGLISH || !/^\d{4}-\d{2}-\d{2}$/.test(day)) return day;
  return new Intl.DateTimeFormat(language, { dateStyle: "medium", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`));
}

/** The address of a page in the language of this one; English ones carry no mark. @param {string} address */
export function inLanguage(address) {
  if (language === ENGLISH) return address;
  const [page, anchor] = address.split("#");
  return `${page}${page.includes("?") ? "&" : "?"}lang=${language}${anchor === undefined ? "" : `#${anchor}`}`;
}
