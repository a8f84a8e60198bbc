// What was entered -> a value that can be used, or the reason why not. Twin of checks/entries.py.

const DATE = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/;
const INSTANT =
  /^(\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3]):[0-5]\d)(:[0-5]\d)?(\.\d{1,3})?Z$/;

/** The value of what was entered, or null with the reason; null without a reason when nothing was. */
export function readEntry(entry, cell) {
  if (cell === null || (Array.isArray(cell) && cell.length === 0)) return { value: null, reason: null };
  if (entry.kind !== "series") return readOne(entry, cell);
  const values = [];
  for (const one of Array.isArray(cell) ? cell : [cell]) {
    const { value, reason } = readOne(entry, one);
    if (value === null) return { value: null, reason: reason ?? { code: "not_a_number", typed: "" } };
    values.push(value);
  }
  return { value: values, reason: null };
}

function readOne(entry, cell) {
  if ("conflict" in cell) return { value: null, reason: { code: "conflict" } };
  const value = cell.value ?? null;
  if (value === null || value === "") {
    const unread = typeof cell.typed === "string" && cell.typed !== "";
    return { value: null, reason: unread ? { code: "not_a_number", typed: cell.typed } : null };
  }
  // A name alone is no signature.
  if (entry.kind === "drawing" && !(cell.strokes?.length || cell.stated === true)) return { value: null, reason: null };
  const reason = READERS[entry.kind](entry, value);
  return reason ? { value: null, reason } : { value, reason: null };
}

function number(entry, value) {
  if (!Number.isFinite(value)) return { code: "not_a_number", typed: typeof value === "string" ? value : null };
  const { minimum, maximum, unit } = entry;
  const outside = (minimum !== null && value < minimum) || (maximum !== null && value > maximum);
  return outside ? { code: "outside_possible", value, minimum, maximum, unit } : null;
}

function choice(entry, value) {
  const options = entry.options.length ? entry.options.map((option) => option.value) : ["yes", "no"];
  return options.includes(value) ? null : { code: "unknown_choice", value, options };
}

const written = (code, pattern) => (_, value) =>
  typeof value === "string" && pattern.test(value) && isDay(value) ? null : { code };

function isDay(text) {
  const [year, month, day] = [text.slice(0, 4), text.slice(5, 7), text.slice(8, 10)].map(Number);
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const longest = [4, 6, 9, 11].includes(month) ? 30 : 31;
  return year > 0 && day <= (month === 2 ? (leap ? 29 : 28) : longest);
}

/** An instant to the millisecond, so that texts compare as times do. */
export function instant(text) {
  const [, minute, second, fraction] = INSTANT.exec(text);
  return `${minute}${second ?? ":00"}${(fraction ?? ".").padEnd(4, "0")}Z`;
}

/** A date as whole days since 1970-01-01. @param {string} text */
export const days = (text) => Date.parse(`${text}T00:00:00.000Z`) / 86_400_000;

function text(entry, value) {
  return typeof value === "string" ? null : { code: "wrong_shape", field: entry.id, wanted: "a text" };
}

const READERS = {
  reading: number,
  series: number,
  choice,
  yes_no: choice,
  text,
  photo: text,
  drawing: text,
  date: written("not_a_date", DATE),
  instant: written("not_an_instant", INSTANT),
};
