import { unitLabel } from "../generated/units.js";
import { phrase, written } from "../language/phrase.js";
import { signedWords } from "./drawn.js";
import { moment } from "./words.js";

/**
 * What was entered, as a person would say it: a reading as typed with its unit, a choice by its label.
 * @param {any} content the content of an event, or a cell of a case
 * @param {any} entry
 * @returns {string} a dash for nothing
 */
export function inWords(content, entry) {
  if (content === null || content === undefined) return "–";
  if (entry.kind === "reading" || entry.kind === "series") return readingInWords(content, entry);
  if (entry.kind === "photo") return phrase("A photo");
  if (entry.kind === "drawing") return signedWords(content);
  if (content.value === null || content.value === undefined) return "–";
  if (entry.kind === "instant") return moment(content.value);
  if (entry.kind === "yes_no") return content.value === "yes" ? phrase("Yes") : phrase("No");
  if (entry.kind === "choice") return labelOf(entry, content.value);
  return entry.kind === "date" ? written(String(content.value)) : String(content.value);
}

/** @param {any} content @param {any} entry */
function readingInWords(content, entry) {
  const typed = content.typed ?? String(content.value);
  const named = /[\p{L}%°]/u.test(typed);
  const unit = unitLabel(content.unit ?? entry.unit ?? "1");
  return named || !unit ? typed.trim() : `${typed.trim()} ${unit}`;
}

/** @param {any} entry @param {any} value */
function labelOf(entry, value) {
  return entry.options.find((/** @type {any} */ option) => option.value === value)?.label ?? String(value);
}
