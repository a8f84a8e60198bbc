import { letters, spellings, units } from "../generated/units.js";

/**
 * The sign of a unit as a page shows it: `uS/cm` becomes µS/cm; empty for a bare number.
 * @param {string | null | undefined} name
 * @returns {string}
 */
export function unitLabel(name) {
  if (!name || name === "dimensionless") return "";
  const labels = /** @type {Record<string, any[]>} */ (units);
  if (labels[name]) return labels[name][0];
  const spelled = Object.entries(letters).reduce((text, [typed, written]) => text.replaceAll(typed, written), name);
  const meant = /** @type {Record<string, string>} */ (spellings)[spelled.replaceAll(" ", "")];
  return meant ? labels[meant][0] : name;
}
