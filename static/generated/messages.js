// Generated from checks/messages.toml by checks.generate: change that, then run `python -m checks.generate`.

import { decimal, phrase } from "../language/phrase.js";
import { unitLabel } from "./units.js";

export let VERDICTS = {
  "pass": {
    "word": "Pass",
    "meaning": "Inside the limit, with the instrument's uncertainty counted as the decision rule asks."
  },
  "conditional_pass": {
    "word": "Conditional pass",
    "meaning": "Inside the limit, but by less than the instrument's uncertainty: not proven."
  },
  "conditional_fail": {
    "word": "Conditional fail",
    "meaning": "Outside the limit, but by less than the instrument's uncertainty: not proven."
  },
  "fail": {
    "word": "Fail",
    "meaning": "Outside what the decision rule accepts."
  },
  "not_measured": {
    "word": "Not yet measured",
    "meaning": "Something is missing or cannot be used, so nothing was judged."
  },
  "pending": {
    "word": "Result to follow",
    "meaning": "The result comes later; until then acceptance is conditional."
  },
  "not_applicable": {
    "word": "Not applicable",
    "meaning": "Does not concern this unit."
  },
  "instrument_not_good_enough": {
    "word": "Instrument not good enough",
    "meaning": "No judgement is possible with this instrument. Use a better one, or one within its calibration date."
  },
  "no_valid_setting": {
    "word": "No valid setting",
    "meaning": "The lower limit is above the upper one: no value can be right. Change the installation, not the setting."
  }
};

export let STATES = {
  "held": {
    "word": "Held",
    "meaning": "A step that comes first has not passed, and cannot be overridden."
  },
  "waiting": {
    "word": "Waiting",
    "meaning": "A step that comes first is not done. Do it, or override it with a reason."
  },
  "open": {
    "word": "Open",
    "meaning": "To be done."
  },
  "done": {
    "word": "Done",
    "meaning": "Somebody said so, and nothing it rested on has changed since."
  },
  "recheck": {
    "word": "Re-check",
    "meaning": "A value it rested on has changed since. Look again and confirm."
  },
  "not_applicable": {
    "word": "Not applicable",
    "meaning": "Does not concern this unit."
  },
  "not_done": {
    "word": "Could not be done",
    "meaning": "Somebody said why. The record fails, and can be signed."
  },
  "incomplete": {
    "word": "Incomplete",
    "meaning": "Steps are still open."
  },
  "complete": {
    "word": "Complete",
    "meaning": "Every step is done, or somebody said why it could not be."
  }
};

export let SEVERITIES = {
  "safety": {
    "word": "Danger",
    "meaning": "somebody may be hurt: the unit stays out of use"
  },
  "major": {
    "word": "Major",
    "meaning": "must be put right: the record passes only under this condition"
  },
  "minor": {
    "word": "Minor",
    "meaning": "to be put right some day"
  }
};

export let SENTENCES = {
  "not_a_number": [
    "{input} must be a number, like 6.5, not “{value}”.",
    "“{typed}” is not a number. Type digits, like 6.5.",
    "This is not a number. Type digits, like 6.5."
  ],
  "ambiguous_number": [
    "“{typed}” can be read in two ways. Type 1.234 with a point, or 1234 without a mark.",
    "This number can be read in two ways. Type 1.234 with a point, or 1234 without a mark."
  ],
  "unknown_unit": [
    "The unit “{unit}” is not known here. Use one of: {units}.",
    "The unit “{unit}” is not known here.",
    "This unit is not known here. Choose one from the list."
  ],
  "wrong_unit": [
    "“{unit}” measures something else. Give the value in {wanted}.",
    "“{unit}” measures something else. Use one of: {units}.",
    "This unit measures something else. Choose one from the list."
  ],
  "out_of_float_range": [
    "This number is too large or too small to calculate with. Check the digits and the unit."
  ],
  "not_a_date": [
    "This is not a date. Write it as 2026-11-25."
  ],
  "not_an_instant": [
    "This is not a point in time. Write it as 2026-11-25 09:30:00."
  ],
  "missing_input": [
    "{input} is missing.",
    "A value is missing."
  ],
  "missing": [
    "{quantity} has not been entered.",
    "Nothing has been entered."
  ],
  "unknown_choice": [
    "“{value}” is not one of: {options}.",
    "“{value}” is not one of the choices. Choose one from the list.",
    "Choose one from the list."
  ],
  "outside_range": [
    "{input} is {value}; the formula holds from {minimum} to {maximum}. Check the value and its unit.",
    "{input} is {value}; the formula holds from {minimum}. Check the value and its unit.",
    "{input} is {value}; the formula holds up to {maximum}. Check the value and its unit.",
    "The formula does not hold for this value. Check the value and its unit."
  ],
  "outside_possible": [
    "{value} {unit} cannot be: it lies outside {minimum} to {maximum} {unit}. Check the value and its unit.",
    "{value} {unit} cannot be: the least is {minimum} {unit}. Check the value and its unit.",
    "{value} {unit} cannot be: the most is {maximum} {unit}. Check the value and its unit.",
    "This value is outside what is possible. Check the value and its unit."
  ],
  "conflict": [
    "Two different values were entered. Pick the one that holds; the other stays in the history."
  ],
  "refused_input": [
    "{quantity} cannot be used.",
    "A value this rests on cannot be used."
  ],
  "no_choice_fits": [
    "Nothing is laid down for this combination. Check the choices above."
  ],
  "no_result": [
    "There is no result for these values."
  ],
  "no_finite_result": [
    "These numbers lead to no finite result. Check them and their units."
  ],
  "not_whole": [
    "{input} is counted, so it must be a whole number, not {value}.",
    "This is counted: give a whole number."
  ],
  "not_in_table": [
    "{input} cannot be {value}. The table has: {options}.",
    "The table has no such value."
  ],
  "too_few_readings": [
    "{input} needs at least {minimum} readings; there are {count}.",
    "There are too few readings yet."
  ],
  "unknown_input": [
    "There is no input named “{input}”. The inputs are: {inputs}."
  ],
  "never_reached": [
    "The limit is never reached: the water that flows in is not below it. Look for a cleaner inflow first."
  ],
  "above_pure_water": [
    "Better than pure water can be. Check the temperature sensor, the cell constant, bubbles in the cell and the cable."
  ],
  "no_set_pressure": [
    "No set pressure is low enough: nothing of the allowed pressure is left for the valve. Place it lower or change the installation."
  ],
  "no_limit_in_grade": [
    "This grade of water has no such limit."
  ],
  "nothing_given": [
    "None of the values is there. Give at least one."
  ],
  "no_limit_given": [
    "Give a lower limit, an upper limit or both."
  ],
  "lengths_differ": [
    "Give one number of degrees of freedom for each uncertainty."
  ],
  "unlimited_degrees": [
    "Every contribution is known without limit, so there is no number of degrees: take k = 2."
  ],
  "must_not_trip": [
    "At half the rated residual current the device must not trip at all: watch it for 2 s. There is no time to compare."
  ],
  "not_extra_low_voltage": [
    "SELV and PELV end at 50 V a.c. or 120 V d.c.: take the general limit, or check the voltage."
  ],
  "plug_above_32_amperes": [
    "A plug above 32 A counts as a permanent connection: choose that."
  ],
  "wall_too_rough": [
    "The roughness is more than 5 % of the bore: the law of friction does not hold. Check both and their units."
  ],
  "wall_leaves_no_bore": [
    "The wall is too thick for this outer diameter: no bore is left. Check both."
  ],
  "dynamic_above_static": [
    "With flow the pressure cannot be higher than without. Check which reading is which."
  ],
  "supply_exhausted": [
    "The supply cannot give this flow: its pressure is used up before. Ask for less flow."
  ],
  "no_recovery_allowed": [
    "The feed is above this index already, so no recovery is allowed. Soften it, dose an inhibitor or ask for another limit."
  ],
  "concentrate_not_above_feed": [
    "The concentrate must conduct more than the feed. Check which reading is which."
  ],
  "permeate_not_below_feed": [
    "The permeate must conduct less than the feed. Check which reading is which."
  ],
  "no_flow": [
    "Nothing flows: neither permeate nor concentrate."
  ],
  "no_driving_pressure": [
    "The feed pressure cannot overcome the osmotic pressure and the pressure of the permeate: no water passes."
  ],
  "sdi_times_swapped": [
    "The last 500 mL cannot pass faster than the first. Check which time is which, and the filter."
  ],
  "filter_plugged": [
    "The filter is plugged too far for this interval. Repeat over 10 or 5 minutes and name the interval."
  ],
  "more_acid_than_conductivity": [
    "At this pH the hydrogen ions alone would conduct more than was measured. Check both readings."
  ],
  "life_used_up": [
    "The life is used up already. Change the part, or check both numbers and their units."
  ],
  "radii_swapped": [
    "The chamber must be wider than the sleeve. Check which radius is which."
  ],
  "no_tablet_count": [
    "No whole number of tablets gives a dose between the limits. Take smaller tablets, or know the volume better."
  ],
  "chlorine_has_risen": [
    "Chlorine does not rise by itself. Check which reading is which, and the dilution."
  ],
  "no_acceptable_reading": [
    "The instrument's uncertainty leaves no acceptable reading. Use a more accurate one."
  ],
  "no_instrument": [
    "Choose the instrument that this was measured with."
  ],
  "unknown_instrument": [
    "The chosen instrument is not in the list any more. Choose it again."
  ],
  "wrong_instrument": [
    "{name} is a {kind}; this needs a {wanted}.",
    "The chosen instrument is of another kind. This needs a {wanted}."
  ],
  "instrument_unit": [
    "{name} is specified in {unit}, which does not fit this reading. Choose another instrument."
  ],
  "instrument_incomplete": [
    "The accuracy of {name} is not complete. Have it completed in the instrument list."
  ],
  "calibration_overdue": [
    "The calibration of {name} ran out on {due}. Measure with an instrument within its date."
  ],
  "calibration_unknown": [
    "{name} has no calibration date. Measure with an instrument within its date."
  ],
  "outside_instrument_range": [
    "The reading is outside the range of {name}, {minimum} to {maximum} {unit}. Use another range or instrument."
  ],
  "window_too_narrow": [
    "The uncertainty ±{expanded} {unit} leaves no acceptable reading between the limits. It must be at most ±{needed} {unit}."
  ],
  "no_reading_can_pass": [
    "With the uncertainty ±{expanded} {unit} of this instrument no reading can pass. Use a more accurate one."
  ],
  "uncertainty_unknown": [
    "The uncertainty of this value cannot be computed. Check the instruments of the readings it rests on."
  ],
  "lower_above_upper": [
    "The lowest allowed value {lower} {unit} is above the highest, {upper} {unit}: no setting is right. Change what the limits are computed from."
  ],
  "answer_not_accepted": [
    "The answer “{value}” is not accepted here.",
    "This answer is not accepted here."
  ],
  "out_of_order": [
    "The times are not in the order in which this has to be done. Check them, or do it again in order."
  ],
  "same_instant": [
    "Two times are the same. Enter each when it is done, to the second."
  ],
  "different_instruments": [
    "All of these must be measured with one and the same instrument. Repeat them with one."
  ],
  "result_pending": [
    "The result is still to come."
  ],
  "hold_not_passed": [
    "“{needs}” must pass first. {because}",
    "A step that comes first must pass."
  ],
  "prerequisite_not_met": [
    "“{needs}” is not done yet. {because}",
    "A step that comes first is not done yet."
  ],
  "prerequisite_overridden": [
    "Done although “{needs}” was not met. Reason: {reason}",
    "Done although a step that comes first was not met."
  ],
  "step_open": [
    "The step is not done yet."
  ],
  "step_held": [
    "The step is held by one that comes first."
  ],
  "step_waiting": [
    "The step waits for one that comes first."
  ],
  "step_recheck": [
    "A value it rested on has changed. Look again and confirm the step."
  ],
  "step_not_done": [
    "The step could not be done, for the reason given there."
  ],
  "step_not_reached": [
    "The step was not reached: one that comes first could not be done."
  ],
  "step_missing": [
    "Values are missing, or cannot be used."
  ],
  "step_failed": [
    "The step has not passed."
  ],
  "step_not_optional": [
    "This step cannot be left out."
  ],
  "step_not_applicable": [
    "Left out as not applicable. Reason: {reason}",
    "Left out as not applicable."
  ],
  "defect_open": [
    "A major defect is still open. Put it right and close it, or let the supervisor accept it under conditions."
  ],
  "defect_unsafe": [
    "A defect that makes the unit unsafe is still open. Put it right and close it before the unit is used."
  ],
  "rule_conditional_pass": [
    "A reading is inside its limit by less than the uncertainty."
  ],
  "rule_conditional_fail": [
    "A reading is outside its limit by less than the uncertainty."
  ],
  "rule_pending": [
    "A result is still to come."
  ],
  "unknown_field": [
    "“{field}” is not known. Did you mean {near}?",
    "“{field}” is not known."
  ],
  "wrong_shape": [
    "“{field}” must be {wanted}."
  ]
};

/** Say all this in another language: `tables` is the module of it. */
export function speak(tables) {
  ({ VERDICTS, STATES, SEVERITIES, SENTENCES } = tables);
}

/**
 * What a code says: the first of its sentences whose placeholders are all known. An unknown code says itself.
 * @param {string | {code: string}} code a code, or a reason with its details
 * @param {Object} details
 * @returns {string}
 */
export function sentence(code, details = {}) {
  if (typeof code !== "string") return sentence(code.code, { ...code, ...details });
  for (const text of SENTENCES[code] ?? []) {
    const names = [...text.matchAll(/\{(\w+)\}/g)].map((found) => found[1]);
    if (names.every((name) => isKnown(details[name]))) {
      const filled = text.replace(/\{(\w+)\}/g, (_, name) => said(name, details[name], details.unit));
      return filled.replace(/ +(?=[ .,;:]|$)/g, "");
    }
  }
  return code.replaceAll("_", " ");
}

/** Whether there is something to say; the largest number that a formula takes stands for no end. */
function isKnown(value) {
  if (typeof value === "number") return Math.abs(value) < 1e+15;
  return value !== undefined && value !== null;
}

function said(name, value, unit) {
  if (name === "kind" || name === "wanted") return phrase(unitLabel(String(value)).replaceAll("_", " "));
  if (["unit", "units"].includes(name)) return [value].flat().map((one) => phrase(unitLabel(one))).join(", ");
  return shown(typeof value === "number" ? told(name, value, unit) : value);
}

/** How the numbers of a verdict are shown: digits, and 1 for up or -1 for down. */
const AGREED = {
  "expanded": [
    2,
    1
  ],
  "needed": [
    2,
    -1
  ],
  "lower": [
    4,
    1
  ],
  "upper": [
    4,
    -1
  ]
};

/** A number of a verdict as it is told; a day and what has another name stay as they are. */
export function told(name, value, unit) {
  return Object.hasOwn(AGREED, name) && unit !== "date" ? rounded(value, ...AGREED[name]) : value;
}

/** The value with so many significant digits, on the wanted side; what binary fractions add is no digit. */
function rounded(value, digits, side) {
  const exact = Number(value.toPrecision(10));
  const near = Number(exact.toPrecision(digits));
  if (near === exact || near > exact === side > 0) return near;
  const place = Number(exact.toExponential().split("e")[1]) - digits + 1;
  return Number((near + Number(`${side}e${place}`)).toPrecision(digits));
}

function shown(value) {
  if (Array.isArray(value)) return value.map(shown).join(", ");
  return typeof value === "number" ? decimal(String(Number(value.toPrecision(6)))) : String(value);
}
