// What an instrument's specification says about a reading. Twin of checks/instrument.py, which explains it.

import { canConvert, conversionSlope, convert } from "./typed-number.js";
import { units } from "../generated/units.js";

const SPECIFIED = ["accuracy_of_reading", "accuracy_of_range", "digits", "resolution", "calibration_uncertainty"];

/** The standard uncertainty of a reading of this value, in `unit`; null where the specification gives none. */
export function standardUncertainty(instrument, value, unit, formulas) {
  const shown = fits(instrument, unit) ? converted(value, unit, instrument.unit) : null;
  if (shown === null) return null;
  const inputs = { reading: shown, range: span(instrument) };
  for (const name of SPECIFIED) inputs[name] = instrument[name] || 0;
  const outcome = formulas.standard_uncertainty.evaluate(inputs);
  if (outcome.value === null) return null;
  return finite(outcome.value * Math.abs(conversionSlope(shown, instrument.unit, unit)));
}

/** The standard uncertainty in two parts: what all readings with this instrument share (signed), and a reading's own. */
export function contributions(instrument, value, unit, formulas) {
  const shown = fits(instrument, unit) ? converted(value, unit, instrument.unit) : null;
  if (shown === null) return null;
  const inputs = { reading: shown, range: span(instrument) };
  for (const name of SPECIFIED) inputs[name] = instrument[name] || 0;
  const shared = formulas.instrument_uncertainty.evaluate(inputs).value;
  const own = formulas.resolution_uncertainty.evaluate({ resolution: inputs.resolution }).value;
  if (shared === null || own === null) return null;
  const slope = conversionSlope(shown, instrument.unit, unit);
  return { common: shared * slope, own: own * Math.abs(slope) };
}

/** A number of the specification in `unit`; `value` is where on a curved scale it is wanted. */
export function propertyOf(instrument, name, value, unit) {
  const number = instrument[name];
  if (!isNumber(number) || !fits(instrument, unit)) return null;
  if (["accuracy_of_reading", "accuracy_of_range", "digits"].includes(name)) return number;
  if (["range_minimum", "range_maximum"].includes(name)) return converted(number, instrument.unit, unit);
  const shown = value !== null ? converted(value, unit, instrument.unit) : 1;
  return shown === null ? null : finite(number * Math.abs(conversionSlope(shown, instrument.unit, unit)));
}

/** Why a reading with this instrument cannot be judged; empty when it can. */
export function problems(instrument, value, unit, kind, at) {
  const name = instrument.name || instrument.id;
  if (instrument.kind !== kind) return [{ code: "wrong_instrument", name, kind: instrument.kind, wanted: kind }];
  if (!fits(instrument, unit)) return [{ code: "instrument_unit", name, unit: instrument.unit ?? null }];
  if (!isNumber(instrument.range_minimum) || !isNumber(instrument.range_maximum)) {
    return [{ code: "instrument_incomplete", name }];
  }
  return [...calibration(instrument, name, at), ...range(instrument, name, value, unit)];
}

/** Whether the instrument's own unit measures the same as `unit`. */
function fits(instrument, unit) {
  return isOffered(instrument.unit) && isOffered(unit) && canConvert(instrument.unit, unit);
}

const isOffered = (unit) => typeof unit === "string" && Object.hasOwn(units, unit);

function calibration(instrument, name, at) {
  const due = instrument.calibration_due;
  if (typeof due !== "string" || !due) return [{ code: "calibration_unknown", name }];
  return at !== null && at.slice(0, 10) > due ? [{ code: "calibration_overdue", name, due }] : [];
}

function range(instrument, name, value, unit) {
  const [minimum, maximum] = [instrument.range_minimum, instrument.range_maximum];
  const shown = converted(value, unit, instrument.unit);
  const slack = 1e-9 * Math.max(Math.abs(minimum), Math.abs(maximum));
  if (shown !== null && minimum - slack <= shown && shown <= maximum + slack) return [];
  return [{ code: "outside_instrument_range", name, minimum, maximum, unit: instrument.unit }];
}

function span({ range_minimum, range_maximum }) {
  return isNumber(range_minimum) && isNumber(range_maximum) ? range_maximum - range_minimum : 0;
}

function converted(value, unit, to) {
  try {
    return finite(convert(value, unit, to));
  } catch {
    return null;
  }
}

/** The number, or null for what JSON cannot hold. */
export const finite = (value) => (Number.isFinite(value) ? value : null);

const isNumber = (value) => typeof value === "number";
