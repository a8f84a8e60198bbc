import { phrase } from "../language/phrase.js";
import { inWords } from "./contents.js";
import { make } from "./element.js";
import { moment } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/**
 * The stored events behind a conflict of this field or item, none where there is no conflict.
 * @param {VisitSession} session
 * @param {string} field
 * @param {string | null} item
 */
function rivals(session, field, item) {
  const [step] = field.split("#");
  const entry = field.endsWith("#defect") ? /** @type {any} */ (session.case).defects?.[step] : session.case.entries[field];
  const cells = /** @type {any[]} */ (Array.isArray(entry) ? entry : [entry]).flatMap((one) => one?.conflict ?? []);
  const ids = new Set(cells.length ? session.current(field, item).map((event) => event.id) : []);
  return cells.filter((cell) => ids.has(cell.id)).map((cell) => /** @type {EntryEvent} */ (session.events.get(cell.id)));
}

/** Which phone, as far as this one can tell. @param {VisitSession} session @param {EntryEvent} event */
function phoneOf(session, { device }) {
  return device === session.device ? phrase("this phone") : phrase("another phone ({device})", { device: device.slice(0, 6) });
}

/**
 * One of the values, with who entered it, when, on which phone and with what, and the touch that makes it hold.
 * @param {VisitSession} session @param {EntryEvent} event @param {string} value @param {() => unknown} pick
 */
function rival(session, event, value, pick) {
  const instrument = session.known.find((one) => one.id === event.content?.instrument)?.name;
  const about = [session.labels.person(event.by), moment(event.at), phoneOf(session, event), instrument];
  return make(
    "li",
    { class: "card" },
    make("strong", { class: "value" }, value),
    make("ul", { class: "plain" }, ...about.filter(Boolean).map((words) => make("li", {}, words))),
    session.open ? make("button", { type: "button", class: "button", "aria-label": phrase("{value} holds", { value }), onclick: pick }, phrase("This holds")) : null,
  );
}

/**
 * Where two phones entered different values, both are shown until a person picks one. The pick is an event that replaces
 * both; neither leaves the history.
 * @param {HTMLElement} place
 * @param {VisitSession} session
 * @param {{field: string, item?: string | null, entry?: any, words?: (content: any) => string, onpick?: () => unknown}} about
 */
export function showConflict(place, session, { field, item = null, entry, words = (content) => inWords(content, entry), onpick = () => {} }) {
  const events = rivals(session, field, item);
  const shown = events.map((event) => event.id).join(" ");
  if ((place.dataset.shown ?? "") === shown) return;
  place.dataset.shown = shown;
  const pick = async (/** @type {EntryEvent} */ event) => {
    await session.write(field, event.content, { item, reason: { code: "conflict", text: "" } });
    onpick();
  };
  const question = make("p", {}, phrase("Two phones say different things. Touch the value that holds; the other stays in the history."));
  const both = make("ul", { class: "rivals" }, ...events.map((event) => rival(session, event, words(event.content), () => pick(event))));
  const until = make("p", { class: "muted" }, phrase("Until one is chosen this value is not judged, and the record cannot be signed."));
  const notice = make("div", { class: "notice", "data-kind": "warning", role: "status" }, question, both, until);
  place.replaceChildren(...(events.length ? [notice] : []));
}
