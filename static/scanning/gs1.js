// What the code on a cartridge says of it: GS1 element strings (GS1 General Specifications, section 3 and figure
// 7.8.5-2) and GS1 Digital Link addresses (GS1 Digital Link Standard: URI Syntax), which are read and never fetched.

const SEPARATOR = "\u001d";

/** Total length, with the identifier, of the elements that need no separator; by the first two digits. */
const FIXED = /** @type {Record<string, number>} */ ({
  "00": 20, "01": 16, "02": 16, "03": 16, "04": 18, 11: 8, 12: 8, 13: 8, 14: 8, 15: 8, 16: 8, 17: 8, 18: 8, 19: 8, 20: 4,
  31: 10, 32: 10, 33: 10, 34: 10, 35: 10, 36: 10, 41: 16,
});

/** How many digits an identifier has, where it is not two. */
const LONGER = [
  { starts: /^(23|24|25|40|41|42|71)/, digits: 3 },
  { starts: /^(3[1-69]|43|70|72|8[0-2])/, digits: 4 },
];

const NAMES = /** @type {Record<string, "gtin" | "lot" | "expiry" | "best" | "serial">} */ ({
  "01": "gtin", 10: "lot", 15: "best", 17: "expiry", 21: "serial",
});

/**
 * What a code says in words that entries know; null where it is no GS1 element string.
 * @typedef {{gtin?: string, lot?: string, expiry?: string, best?: string, serial?: string}} Elements
 */

/** Whether the last digit of a GTIN is its check digit (GS1 General Specifications, 7.9.1). @param {string} gtin */
export function isGtin(gtin) {
  if (!/^\d{14}$/.test(gtin)) return false;
  const sum = [...gtin].reduce((before, digit, place) => before + Number(digit) * (place % 2 === 0 ? 3 : 1), 0);
  return sum % 10 === 0;
}

/**
 * A day from six digits; the day 00 is the last of its month. The century is the one that lies nearest
 * (GS1 General Specifications, 7.12). Null for digits that name no day.
 * @param {string} digits
 * @param {number} [thisYear]
 */
export function dayOf(digits, thisYear = new Date().getFullYear()) {
  if (!/^\d{6}$/.test(digits)) return null;
  const [short, month, given] = [digits.slice(0, 2), digits.slice(2, 4), digits.slice(4)].map(Number);
  const apart = short - (thisYear % 100);
  const century = Math.floor(thisYear / 100) + (apart >= 51 ? -1 : apart <= -50 ? 1 : 0);
  const year = century * 100 + short;
  if (month < 1 || month > 12) return null;
  const longest = new Date(Date.UTC(year, month, 0)).getUTCDate();
  if (given > longest) return null;
  return [year, String(month).padStart(2, "0"), String(given || longest).padStart(2, "0")].join("-");
}

/**
 * The elements of a string, by their identifiers; null where it does not come out even.
 * @param {string} text
 */
export function elementsOf(text) {
  /** @type {Map<string, string>} */
  const found = new Map();
  let left = text.replace(/^\](C1|d2|Q3|e0|J1)/, "").replace(/^\u001d+/, "");
  while (left !== "") {
    if (!/^\d\d/.test(left)) return null;
    const digits = LONGER.find(({ starts }) => starts.test(left))?.digits ?? 2;
    const fixed = FIXED[left.slice(0, 2)];
    const end = fixed ?? (left.includes(SEPARATOR) ? left.indexOf(SEPARATOR) : left.length);
    const value = left.slice(digits, end);
    if (value === "" || left.length < end || value.includes(SEPARATOR)) return null;
    if (!found.has(left.slice(0, digits))) found.set(left.slice(0, digits), value);
    left = left.slice(end).replace(/^\u001d/, "");
  }
  return found.size > 0 ? found : null;
}

/** As people read it below the bars: (01)...(17)...(10)... @param {string} text */
function fromReadable(text) {
  const parts = [...text.matchAll(/\((\d{2,4})\)([^()]+)/g)];
  if (parts.length === 0 || parts.map(([whole]) => whole).join("") !== text) return null;
  return new Map(parts.map(([, identifier, value]) => [identifier, value]));
}

const ADDRESS = /^https?:\/\//i;
/** How many digits a GTIN may have in an address; it means the one of 14 with noughts in front. */
const GTIN_LENGTHS = [8, 12, 13, 14];
/** What follows a GTIN in the path of an address: variant, lot, serial number, in this order. */
const QUALIFIERS = ["22", "10", "21"];

/** @param {string[]} parts the path after the GTIN, name and value in turn */
function qualifiersOf(parts) {
  const names = parts.filter((_, place) => place % 2 === 0);
  const places = names.map((name) => QUALIFIERS.indexOf(name));
  const inOrder = places.every((place, index) => place > (places[index - 1] ?? -1));
  if (parts.length % 2 !== 0 || !inOrder || parts.some((one) => one === "")) return null;
  return names.map((name, index) => /** @type {[string, string]} */ ([name, parts[index * 2 + 1]]));
}

/**
 * The elements that an address carries: the GTIN and its qualifiers in the path, the others in the query. Any domain
 * and any path may stand in front. Null where it is no GS1 Digital Link about a GTIN.
 * @param {string} text
 */
export function elementsOfLink(text) {
  try {
    const { pathname, searchParams } = new URL(text);
    const parts = pathname.split("/").map(decodeURIComponent);
    const start = parts.lastIndexOf("01");
    const given = start < 0 ? "" : (parts[start + 1] ?? "");
    const gtin = given.padStart(14, "0");
    const qualifiers = GTIN_LENGTHS.includes(given.length) && isGtin(gtin) ? qualifiersOf(parts.slice(start + 2)) : null;
    if (qualifiers === null) return null;
    const attributes = [...searchParams].filter(([name, value]) => /^\d{2,4}$/.test(name) && value !== "");
    return new Map([...attributes, ...qualifiers, ["01", gtin]]);
  } catch {
    // Neither an address nor rightly written.
    return null;
  }
}

/** An address never is what is printed on a thing as its lot or serial number. @param {string} text */
export const isAddress = (text) => ADDRESS.test(text.trim());

/**
 * What a scanned or typed code says of the thing that it is on. A code that does not call itself GS1 counts as such only
 * with a valid GTIN in front, so that a plain serial number stays one.
 * @param {string} text
 * @param {{isGS1?: boolean}} [about]
 * @returns {Elements | null}
 */
export function readGS1(text, { isGS1 = false } = {}) {
  const says = isGS1 || /^(\](C1|d2|Q3|e0|J1)|\u001d)/.test(text);
  const isLink = isAddress(text);
  const found = isLink ? elementsOfLink(text.trim()) : (fromReadable(text.trim()) ?? elementsOf(text));
  if (found === null) return null;
  const gtin = found.get("01");
  if (!says && !isLink && !(gtin && isGtin(gtin)) && !text.startsWith("(")) return null;
  /** @type {Elements} */
  const elements = {};
  for (const [identifier, value] of found) {
    const name = NAMES[identifier];
    const said = name === "expiry" || name === "best" ? dayOf(value) : value;
    if (name && said) elements[name] = said;
  }
  return Object.keys(elements).length > 0 ? elements : null;
}
