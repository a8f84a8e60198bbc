/**
 * The first events of what a field holds several of, in the order in which they were begun, those removed left out.
 * @param {import("./session.js").VisitSession} session
 * @param {string} field
 */
export function itemsOf(session, field) {
  return [...session.events.values()]
    .filter((event) => event.field === field && event.item === event.id)
    .sort((a, b) => (a.hlc < b.hlc ? -1 : 1))
    .filter((event) => session.content(field, event.item) !== null);
}
