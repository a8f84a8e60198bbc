import { unitLabel } from "../generated/units.js";
import { decimal, noop, phrase, phrases, written } from "../language/phrase.js";

const RAISED = ["⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"];

/**
 * A computed number, rounded to significant digits; very large and very small ones with a power of ten.
 * @param {number} value
 * @param {number} [significant]
 */
export function number(value, significant = 4) {
  const size = Math.abs(value);
  if (size !== 0 && (size < 1e-3 || size >= 1e6)) {
    const [digits, power] = value.toExponential(2).split("e");
    const raised = String(Math.abs(Number(power))).replace(/\d/g, (digit) => RAISED[Number(digit)]);
    return `${minus(Number(digits))} × 10${Number(power) < 0 ? "⁻" : ""}${raised}`;
  }
  return minus(Number(value.toPrecision(significant)));
}

/** @param {number} value */
const minus = (value) => decimal(String(value)).replace("-", "−");

export const DAY = 86_400_000;

/** 2026-11-25 for whole days since 1970-01-01. @param {number} days */
export const dateOf = (days) => new Date(days * DAY).toISOString().slice(0, 10);

/**
 * A value with its unit; a date as a date.
 * @param {number} value @param {string | null | undefined} unit @param {number} [significant]
 */
export function quantity(value, unit, significant = 4) {
  if (unit === "date") return written(dateOf(value));
  const label = unit ? phrase(unitLabel(unit)) : "";
  return label ? `${number(value, significant)} ${label}` : number(value, significant);
}

/** How far two values of a unit lie apart. @param {number} value @param {string | null | undefined} unit */
export function distance(value, unit) {
  return unit === "date" ? phrases("one day", "{count} days", value) : quantity(value, unit, 3);
}

export const two = (/** @type {number} */ value) => String(value).padStart(2, "0");

/** The time on the wall: 14:02. @param {Date} date */
export function clockTime(date) {
  return `${two(date.getHours())}:${two(date.getMinutes())}`;
}

/** 2026-11-25, in the phone's own zone. @param {Date} date */
export function day(date) {
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

/** 14:02 today, 2026-11-24 14:02 otherwise. @param {string | Date} at */
export function moment(at) {
  const date = new Date(at);
  return day(date) === day(new Date()) ? clockTime(date) : `${written(day(date))} ${clockTime(date)}`;
}

/** UTC+01:00 for the phone's zone at that moment. @param {Date} date */
export function zone(date) {
  const minutes = -date.getTimezoneOffset();
  const [hours, rest] = [Math.floor(Math.abs(minutes) / 60), Math.abs(minutes) % 60];
  return `UTC${minutes < 0 ? "−" : "+"}${two(hours)}:${two(rest)}`;
}

/** 1:02:07 or 2:07. @param {number} milliseconds */
export function duration(milliseconds) {
  const seconds = Math.max(0, Math.floor(milliseconds / 1000));
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  return hours ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
}

/** Sentences begin with a capital. @param {string} text */
export function capital(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export const VISIT_STATES = {
  draft: noop("In work"),
  signed: noop("Signed"),
  accepted: noop("Accepted"),
  returned: noop("Returned"),
  quarantined: noop("Set aside"),
};
