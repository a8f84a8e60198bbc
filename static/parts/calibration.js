import { phrase, written } from "../language/phrase.js";
import { DAY, day } from "./words.js";

/** Days before the end of a calibration from which on it is told: a visit may take that long. */
const SOON = 14;

/** @param {Instrument} instrument @param {Date} on */
export function isOverdue(instrument, on) {
  return instrument.calibration_due !== null && instrument.calibration_due < day(on);
}

/**
 * What there is to know about an instrument's calibration before it is chosen; empty while it is valid for a while.
 * @param {Instrument} instrument @param {Date} on
 */
export function calibrationWords({ calibration_due: due }, on) {
  if (due === null || due > day(new Date(on.getTime() + SOON * DAY))) return "";
  return due < day(on) ? phrase("calibration ended {due}", { due: written(due) }) : phrase("calibration ends {due}", { due: written(due) });
}

/** The same words as `kind_in_words` of checks/instrument.py, which are the keys of the translations. */
const SHORT_NAMES = new Map([["ph", "pH"], ["toc", "TOC"]]);

/** @param {string} kind */
export const kindInWords = (kind) => phrase(kind.split("_").map((word) => SHORT_NAMES.get(word) ?? word).join(" "));

/** An instrument as a choice names it. @param {Instrument} instrument */
export function instrumentInWords(instrument) {
  return [instrument.name, instrument.serial, calibrationWords(instrument, new Date())].filter(Boolean).join(", ");
}
