import { phrase, phrases } from "../language/phrase.js";
import { inWords } from "./contents.js";
import { make, part, say } from "./element.js";
import { mountEntry } from "./entry.js";
import { watchStoring } from "./not-stored.js";
import { openPage } from "./page.js";
import { inputName, missingValues, officeCell, OWNERS, plateAddress } from "./plate-missing.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */
/**
 * One value: its input as the page has it, and beside it what the office gives, with the ways from one to the other.
 * @typedef {{name: string, entry: any, element: HTMLElement, input: HTMLElement, group: HTMLDetailsElement, wanted: boolean, mounted: boolean,
 *   given: HTMLElement, change: HTMLButtonElement, office: HTMLButtonElement}} Row
 */

/**
 * The rows of the page: one for each value of plate and site, in the procedure's order.
 * @param {HTMLElement} root @param {VisitSession} session
 * @returns {Row[]}
 */
function rowsOf(root, session) {
  return OWNERS.flatMap((owner) =>
    session.procedure[/** @type {"plate" | "site"} */ (owner)].map((/** @type {any} */ entry) => {
      const name = `${owner}.${entry.id}`;
      const element = /** @type {HTMLElement} */ (root.querySelector(`[data-value="${name}"]`));
      const group = /** @type {HTMLDetailsElement} */ (element.closest("details"));
      const input = /** @type {HTMLElement} */ (element.firstElementChild);
      const [given, change, office] = [make("p"), button(phrase("Change"), entry), button(phrase("Use the office's value"), entry)];
      return { name, entry: { ...entry, id: inputName(name) }, element, input, group, wanted: false, mounted: false, given, change, office };
    }),
  );
}

/** @param {string} words @param {any} entry */
function button(words, entry) {
  return make("button", { type: "button", class: "button quiet small", "aria-label": `${words}: ${entry.label}` }, words);
}

/** What the office gives or, without that, what is usual. @param {Row} row @param {VisitSession} session */
function givenWords({ name, entry }, session) {
  const office = officeCell(session, name);
  if (office) return phrase("{in_words} (given by the office)", { in_words: inWords(office, entry) });
  return entry.default === null ? phrase("Not given yet") : phrase("{in_words} (usual value)", { in_words: inWords({ value: entry.default }, entry) });
}

/** Whether the input is there: nothing else gives the value, or a person wants to change it. @param {Row} row @param {VisitSession} session */
function isAsked({ name, entry, wanted }, session) {
  const fromElsewhere = officeCell(session, name) !== null || entry.default !== null;
  return wanted || !fromElsewhere || session.content(name) !== null || session.case.entries[name] !== undefined;
}

/** An input is made live when its group is open: hundreds at once would be slow. @param {Row} row @param {VisitSession} session */
function mount(row, session) {
  if (row.mounted) return;
  row.mounted = true;
  mountEntry(row.input, row.entry, session, { standing: officeCell(session, row.name) });
}

/** @param {Row} row @param {VisitSession} session */
function paint(row, session) {
  const { element, name, group } = row;
  element.hidden = !session.exists(name);
  if (element.hidden || !group.open) return;
  const [asked, office] = [isAsked(row, session), officeCell(session, name)];
  if (!row.given.isConnected) row.input.before(row.given, row.change);
  if (!row.office.isConnected) row.input.after(row.office);
  say(row.given, `${row.entry.label}: ${givenWords(row, session)}`);
  row.given.hidden = asked && office === null;
  row.change.hidden = asked || !session.open;
  row.input.hidden = !asked;
  row.office.hidden = !session.open || !asked || office === null;
  if (asked) mount(row, session);
  for (const one of /** @type {NodeListOf<HTMLInputElement>} */ (row.input.querySelectorAll("input, select, textarea, button"))) one.disabled = !session.open;
}

/** @param {Row[]} rows @param {Map<string, any[]>} missing */
function paintGroups(rows, missing) {
  for (const group of new Set(rows.map((row) => row.group))) {
    const own = rows.filter((row) => row.group === group && !row.element.hidden);
    const lacking = own.filter((row) => missing.has(row.name)).length;
    group.hidden = own.length === 0;
    say(part(group, "count"), lacking ? phrase("{lacking} missing of {own}", { lacking, own: own.length }) : phrases("{count} value", "{count} values", own.length));
  }
}

/** Open what holds a value and go to its input. @param {Row} row @param {VisitSession} session */
function goTo(row, session) {
  row.group.open = true;
  row.wanted = true;
  paint(row, session);
  row.element.scrollIntoView({ block: "start" });
  /** @type {HTMLElement | null} */ (row.input.querySelector("input, select, textarea"))?.focus();
}

/**
 * What is missing, each with the steps that need it.
 * @param {HTMLElement} place @param {Row[]} rows @param {Map<string, any[]>} missing @param {VisitSession} session
 */
function paintMissing(place, rows, missing, session) {
  const shown = JSON.stringify([...missing].map(([name, steps]) => [name, steps.length]));
  if (place.dataset.shown === shown) return;
  place.dataset.shown = shown;
  const lines = rows.filter((row) => missing.has(row.name)).map((row) => {
    const steps = /** @type {any[]} */ (missing.get(row.name));
    const go = (/** @type {Event} */ event) => {
      event.preventDefault();
      goTo(row, session);
    };
    const needed = make("span", { class: "line" }, phrase("Needed by: {steps}", { steps: steps.map((step) => step.title).join(", ") }));
    return make("li", {}, make("a", { href: plateAddress(session, row.name), onclick: go }, make("span", {}, row.entry.label), needed));
  });
  const title = make("h2", {}, lines.length ? phrase("Missing for the steps: {lines}", { lines: lines.length }) : phrase("Nothing is missing"));
  const words = lines.length ? phrase("Read it on the data plate, in the manual or at the place, and give it here.") : phrase("Every value that a step needs is given.");
  place.replaceChildren(title, make("p", { class: "muted" }, words), ...(lines.length ? [make("ul", { class: "list" }, ...lines)] : []));
}

function isTyping() {
  return document.activeElement?.matches("input:not([type=radio]), textarea, select") ?? false;
}

/** @param {Row} row @param {VisitSession} session */
function listen(row, session) {
  row.change.addEventListener("click", () => goTo(row, session));
  row.office.addEventListener("click", async () => {
    row.wanted = false;
    await session.flush(row.name);
    if (session.content(row.name) !== null) await session.write(row.name, null);
    session.refresh();
  });
}

/**
 * The data plate and the site's choices, as the office has them, to be given or corrected by who stands at the unit.
 * @param {HTMLElement} root
 */
export default async function plate(root) {
  const session = await openPage(root);
  if (session === null) return;
  const notice = part(root, "notice");
  watchStoring(session, notice);
  const rows = rowsOf(root, session);
  for (const row of rows) listen(row, session);
  for (const group of new Set(rows.map((row) => row.group))) {
    group.addEventListener("toggle", () => rows.filter((row) => row.group === group).forEach((row) => paint(row, session)));
  }
  session.watch(() => {
    const missing = missingValues(session);
    part(root, "closed").hidden = session.open;
    root.toggleAttribute("data-unsaved", session.drafts.size > 0);
    for (const row of rows) paint(row, session);
    paintGroups(rows, missing);
    // The list stands above the inputs: it must not grow shorter under the thumb of who types.
    if (!isTyping()) paintMissing(part(root, "missing"), rows, missing, session);
  });
  root.addEventListener("focusout", () => paintMissing(part(root, "missing"), rows, missingValues(session), session));
  const asked = rows.find((row) => location.hash === `#value_${inputName(row.name)}`);
  if (asked) goTo(asked, session);
}
