import { phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { inWords } from "./contents.js";
import { moment } from "./words.js";

/**
 * The stored events behind a conflict of this field or item, none where there is no conflict.
 * @param {import("./session.js").VisitSession} session
 * @param {string} field
 * @param {string | null} item
 */
function rivals(session, field, item) {
  const ids = new Set(session.current(field, item).map((event) => event.id));
  const entry = session.case.entries[field];
  const cells = /** @type {any[]} */ (Array.isArray(entry) ? entry : [entry]).flatMap((one) => one?.conflict ?? []);
  return cells.filter((cell) => ids.has(cell.id)).map((cell) => /** @type {EntryEvent} */ (session.events.get(cell.id)));
}

/**
 * Where two phones entered different values, both are shown until a person picks one. The pick replaces both.
 * @param {HTMLElement} place
 * @param {import("./session.js").VisitSession} session
 * @param {{field: string, item?: string | null, entry: any}} about
 */
export function showConflict(place, session, { field, item = null, entry }) {
  const events = rivals(session, field, item);
  const shown = events.map((event) => event.id).join(" ");
  if ((place.dataset.shown ?? "") === shown) return;
  place.dataset.shown = shown;
  const pick = (/** @type {EntryEvent} */ event) =>
    session.write(field, event.content, { item, reason: { code: "conflict", text: "" } });
  const rows = events.map((event) =>
    make(
      "li",
      {},
      make("p", {}, make("strong", {}, inWords(event.content, entry)), ` - ${session.labels.person(event.by)}, ${moment(event.at)}`),
      session.open ? make("button", { type: "button", class: "button quiet small", onclick: () => pick(event) }, phrase("This one holds")) : null,
    ),
  );
  const question = make("p", {}, phrase("Two different values were entered. Which one holds? The other stays in the history."));
  const notice = make("div", { class: "notice", "data-kind": "warning", role: "status" }, question, make("ul", { class: "plain" }, ...rows));
  place.replaceChildren(...(events.length ? [notice] : []));
}
