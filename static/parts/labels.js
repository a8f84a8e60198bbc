import { sentence } from "../generated/messages.js";
import { noop, phrase, written } from "../language/phrase.js";
import { inWords } from "./contents.js";

/** @type {Record<string, string>} */
const PLACES = { plate: noop("data plate"), site: noop("site"), baseline: noop("as accepted") };

/** How a person calls what the procedure and the record name. */
export class Labels {
  /** @param {Procedure} procedure @param {Person[]} people */
  constructor(procedure, people) {
    this.people = new Map(people.map((person) => [person.id, person.name]));
    /** @type {Map<string, string>} */
    this.steps = new Map(procedure.steps.map((step) => [step.id, step.title]));
    /** @type {Map<string, any>} */
    this.entries = new Map();
    /** @type {Map<string, string>} */
    this.words = new Map();
    for (const group of ["plate", "site", "baseline"]) this.take(group, procedure[group] ?? []);
    for (const step of procedure.steps) {
      this.take(step.id, step.entries);
      for (const thing of [...step.derived, ...step.rules]) this.name(`${step.id}.${thing.id}`, thing.label);
    }
  }

  /** @param {string} group @param {any[]} entries */
  take(group, entries) {
    for (const entry of entries) {
      this.entries.set(`${group}.${entry.id}`, entry);
      this.name(`${group}.${entry.id}`, entry.label);
    }
  }

  /** The first to carry a name keeps it. @param {string} name @param {string} label */
  name(name, label) {
    if (!this.words.has(name)) this.words.set(name, label);
  }

  /** @param {string} name a quantity, a rule or a step */
  of(name) {
    return this.words.get(name) ?? this.steps.get(name) ?? name;
  }

  /** @param {string} id */
  person(id) {
    return this.people.get(id) ?? phrase("somebody whose name is not on this phone");
  }

  /**
   * Where a value is given, unless that is on the page that says so.
   * @param {string} name
   * @param {string} [here] the step of the page
   */
  withPlace(name, here) {
    const group = name.split(".")[0];
    if (group === here) return this.of(name);
    const place = group in PLACES ? phrase(PLACES[group]) : this.steps.get(group);
    return place ? `${this.of(name)} (${place})` : this.of(name);
  }

  /**
   * What decided that something is there or not: "Degasser fitted (data plate): No".
   * @param {{quantity: string, value: any}} decided
   */
  condition({ quantity, value }) {
    const entry = this.entries.get(quantity);
    const said = entry ? inWords({ value }, entry) : String(value);
    return `${this.withPlace(quantity)}: ${value === null ? phrase("not given") : said}`;
  }

  /**
   * The sentence of a reason, with names as a person knows them.
   * @param {any} reason `{code, ...details}`
   */
  reason(reason) {
    const details = Object.fromEntries(Object.entries(reason).map(([key, value]) => [key, this.detail(key, value)]));
    return sentence(reason.code, details);
  }

  /** @param {string} key @param {any} value @returns {any} */
  detail(key, value) {
    if (Array.isArray(value)) return value.map((one) => this.detail(key, one));
    if (typeof value !== "string" || ["code", "typed", "unit", "units", "wanted"].includes(key)) return value;
    if (key === "due") return written(value);
    return this.words.get(value) ?? this.steps.get(value) ?? value;
  }
}
