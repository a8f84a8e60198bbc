import { inLanguage, phrase } from "../language/phrase.js";
import { sha256 } from "../record/hash.js";
import { isOpen, visits } from "../record/visits.js";
import { units } from "../record/work.js";
import { make, part, say } from "./element.js";
import { failure } from "./failure.js";
import { moment, VISIT_STATES } from "./words.js";

/** Letters and digits only, in capitals. @param {string} text */
const bare = (text) => text.toUpperCase().replace(/[^A-Z0-9]/g, "");

/**
 * The unit that a label, a code below it or a data plate names; null where it is none of this phone's.
 * A label holds the address of the unit's page. The phone does not know these addresses, only the hashes of their secret.
 * @param {string} text
 * @returns {Promise<Unit | null>}
 */
export async function unitOfCode(text) {
  const secret = /\/u\/([a-z0-9]+)\/?$/i.exec(text.trim())?.[1];
  const label = secret ? await sha256(/** @type {any} */ (new TextEncoder().encode(secret.toUpperCase()))) : null;
  const all = await units();
  const named = (/** @type {Unit} */ unit) => [unit.short_code, unit.serial].some((name) => name && bare(name) === bare(text));
  return all.find((unit) => (label === null ? named(unit) : unit.label === label)) ?? null;
}

/** @param {StoredVisit} visit */
function visitRow(visit) {
  const state = make("span", { class: "tag", "data-state": visit.state }, phrase(VISIT_STATES[visit.state]));
  const started = make("span", {}, phrase("Visit started {moment}", { moment: moment(visit.started_at) }));
  return make("li", {}, make("a", { href: inLanguage(`/field/visit?visit=${visit.id}`) }, started, state));
}

/**
 * A button beside the search for a unit: its label opens the visit in work, else what was done at it so far.
 * @param {HTMLElement} root
 * @param {(unit: Unit) => void} choose shows the unit among those that a visit can be started to
 */
export function mountLabelScan(root, choose) {
  const search = /** @type {HTMLInputElement} */ (root.querySelector("#unit-search"));
  const history = make("ul", { class: "list" });
  const button = make("button", { type: "button", class: "button quiet" }, phrase("Scan a label"));
  const scan = async () => {
    const { askForCode } = await import("./scan-dialog.js");
    const code = await askForCode(phrase("Label of the unit"));
    if (code === null) return button.focus();
    const unit = await unitOfCode(code.text);
    if (unit === null) {
      history.replaceChildren();
      return say(part(root, "found"), phrase("No unit on this phone has this label. Choose Send now while there is signal, or ask the office."));
    }
    const known = (await visits()).filter((visit) => visit.unit === unit.id);
    const open = known.filter(isOpen);
    if (open.length === 1) return location.assign(inLanguage(`/field/visit?visit=${open[0].id}`));
    choose(unit);
    history.replaceChildren(...(open.length > 0 ? open : known).map(visitRow));
  };
  button.addEventListener("click", () => scan().catch((error) => history.replaceChildren(make("li", {}, failure(error)))));
  search.after(button);
  part(root, "units").after(history);
}
