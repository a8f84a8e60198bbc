import { phrase } from "../language/phrase.js";
import { isAddress, readGS1 } from "../scanning/gs1.js";
import { inputOf } from "./controls.js";
import { make } from "./element.js";
import { askForCode } from "./scan-dialog.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */
/** @typedef {import("./scan-dialog.js").Code} Code */
/** @typedef {{field: string, label: string, value: string, now: string, content: any}} Offer */

/**
 * What an entry would hold after the scan; null where the code says nothing for it.
 * @param {any} entry
 * @param {Code} code
 * @param {import("../scanning/gs1.js").Elements | null} elements
 * @param {boolean} isAsked the entry whose button was pressed takes a plain code as it is
 */
function valueFor(entry, code, elements, isAsked) {
  if (entry.scan === "expiry") return elements?.expiry ?? elements?.best ?? null;
  const named = { lot: elements?.lot, lots: elements?.lot, serial: elements?.serial }[/** @type {"lot"} */ (entry.scan)];
  return named ?? (isAsked && elements === null && !isAddress(code.text) ? code.text.trim() : null);
}

/** Several things of one entry stand one after the other. @param {any} entry @param {string} now @param {string} value */
function joined(entry, now, value) {
  return entry.scan === "lots" && now !== "" && !now.includes(value) ? `${now}; ${value}` : value;
}

/**
 * What could be taken from a code, first for the entry that asked and then for the others of its step.
 * @param {any} step
 * @param {any} asked
 * @param {Code} code
 * @param {VisitSession} session
 * @returns {Offer[]}
 */
function offersOf(step, asked, code, session) {
  const elements = readGS1(code.text, code);
  const others = step.entries.filter((/** @type {any} */ entry) => entry !== asked && entry.scan && entry.scan !== asked.scan);
  return [asked, ...others].flatMap((entry) => {
    const field = `${step.id}.${entry.id}`;
    const read = session.exists(field) ? valueFor(entry, code, elements, entry === asked) : null;
    if (read === null) return [];
    const before = session.content(field);
    const now = before?.value ?? "";
    const value = joined(entry, now, read);
    // What is read from the code stays beside what was taken from it.
    const scanned = { text: code.text, format: code.format };
    return [{ field, label: entry.label, value, now, content: { value, scanned } }];
  });
}

/** @param {Offer} offer @param {string} id */
function choice(offer, id) {
  const replaces = offer.now !== "" && offer.now !== offer.value && !offer.value.startsWith(`${offer.now}; `);
  const box = make("input", { type: "checkbox", id, checked: !replaces });
  const words = make("span", {}, `${offer.label}: `, make("strong", {}, offer.value));
  const before = replaces ? make("span", { class: "line" }, phrase("It now says {now}. Choose this only if that is wrong.", { now: offer.now })) : null;
  return { box, row: make("label", { class: "choice" }, box, make("span", {}, words, before)) };
}

/**
 * Shows what the code says and takes what the person chooses; nothing is stored before that.
 * @param {HTMLElement} place
 * @param {any} step
 * @param {any} asked
 * @param {Code} code
 * @param {VisitSession} session
 */
function offer(place, step, asked, code, session) {
  const offers = offersOf(step, asked, code, session);
  const close = () => place.replaceChildren();
  const raw = make("p", { class: "muted scanned" }, phrase("Read: "), make("code", {}, code.text.replaceAll("\u001d", " ")));
  if (offers.length === 0) {
    const sentence = phrase("This code says nothing for this entry. Scan another one, or type what is printed.");
    place.replaceChildren(make("div", { class: "asked", role: "status" }, raw, make("p", {}, sentence)));
    return;
  }
  const rows = offers.map((one, index) => ({ one, ...choice(one, `scan_${asked.id}_${index}`) }));
  const take = make("button", { type: "button", class: "button" }, phrase("Take what is chosen"));
  take.addEventListener("click", async () => {
    take.disabled = true;
    for (const { one, box } of rows) {
      if (!box.checked) continue;
      await session.flush(one.field);
      await session.write(one.field, one.content);
    }
    close();
  });
  const leave = make("button", { type: "button", class: "button quiet", onclick: close }, phrase("Leave it"));
  const box = make("div", { class: "asked", role: "group", "aria-label": phrase("What the code says") }, raw, ...rows.map(({ row }) => row), make("div", { class: "row" }, take, leave));
  place.replaceChildren(box);
  take.focus();
}

/**
 * A button beside an entry that a code can fill.
 * @param {HTMLElement} element
 * @param {any} step
 * @param {any} entry
 * @param {VisitSession} session
 */
export function mountScan(element, step, entry, session) {
  const place = make("div", { "data-part": "scanned" });
  const name = make("span", { class: "visually-hidden" }, ` ${entry.label}`);
  const scan = make("button", { type: "button", class: "button quiet small" }, phrase("Scan the code"), name);
  scan.addEventListener("click", async () => {
    const code = await askForCode(entry.label);
    if (code) offer(place, step, entry, code, session);
    else scan.focus();
  });
  inputOf(element, entry).after(scan, place);
}
