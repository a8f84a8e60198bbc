import { inLanguage, phrase, phrases } from "../language/phrase.js";
import { createVisit } from "../record/visits.js";
import { procedureNames, procedureOf } from "../record/work.js";
import { make, part, say } from "./element.js";
import { failure } from "./failure.js";
import { slugOf } from "./progress.js";
import { mountLabelScan } from "./scan-label.js";

const SHOWN = 12;

/** Letters and digits only, so that "qg 7-k" finds QG7K. @param {string} text */
const plain = (text) => text.normalize("NFKD").toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");

/** @param {Unit} unit @param {Site | undefined} site @param {string} wanted */
function matches(unit, site, wanted) {
  return [unit.name, site?.name, unit.serial, unit.short_code].some((text) => plain(text ?? "").includes(wanted));
}

/** @param {HTMLElement} root @param {string} unit */
async function begin(root, unit) {
  const slug = new FormData(part(root, "start-form")).get("procedure");
  try {
    const name = (await procedureNames()).find((one) => slugOf(one) === slug);
    if (!name) {
      throw Object.assign(new Error(phrase("The procedure is not on this phone yet. Choose Send now while there is signal.")), {
        code: "not_on_this_phone",
      });
    }
    const { id, version, hash } = await procedureOf(name);
    const visit = await createVisit({ unit, kind: id, procedure: { id, version, hash: hash ?? name.hash } });
    location.assign(inLanguage(`/field/visit?visit=${visit.id}`));
  } catch (error) {
    part(root, "ready").replaceChildren(failure(error));
  }
}

/** @param {HTMLElement} root @param {Unit} unit @param {Site | undefined} site */
function row(root, unit, site) {
  const title = make("span", { class: "unit-name" }, unit.name);
  const line = make("span", { class: "line" }, [site?.name, unit.serial, unit.short_code].filter(Boolean).join(" - "));
  return make("li", {}, make("button", { type: "button", class: "item", onclick: () => begin(root, unit.id) }, title, line));
}

/**
 * Find a unit of the work list by its name, site, serial number or the code on its label, and start a visit to it.
 * @param {HTMLElement} root
 * @returns {(units: Unit[], sites: Site[]) => void} offers these units from now on
 */
export function startVisit(root) {
  /** @type {{unit: Unit, site: Site | undefined}[]} */
  let all = [];
  const search = /** @type {HTMLInputElement} */ (root.querySelector("#unit-search"));
  const show = () => {
    const wanted = plain(search.value);
    const found = all.filter(({ unit, site }) => matches(unit, site, wanted));
    part(root, "units").replaceChildren(...found.slice(0, SHOWN).map(({ unit, site }) => row(root, unit, site)));
    const more = found.length > SHOWN ? ` ${phrase("The first {shown} are shown: type more of the name.", { shown: SHOWN })}` : "";
    say(part(root, "found"), found.length ? phrases("One unit found.", "{count} units found.", found.length) + more : phrase("No unit on this phone matches."));
  };
  search.addEventListener("input", show);
  part(root, "start-form").addEventListener("submit", (/** @type {Event} */ event) => event.preventDefault());
  const scanned = new URLSearchParams(location.search).get("unit");
  if (scanned) search.value = scanned;
  mountLabelScan(root, (unit) => {
    search.value = unit.short_code ?? unit.serial;
    show();
  });
  return (units, sites) => {
    const places = new Map(sites.map((site) => [site.id, site]));
    all = units.map((unit) => ({ unit, site: places.get(unit.site) }));
    show();
  };
}
