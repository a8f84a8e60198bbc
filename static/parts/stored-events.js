/**
 * The events of a visit that are stored, found by their field and item. What is asked for again while no event came
 * is the same array as before.
 */
export class StoredEvents {
  /** @param {EntryEvent[]} events */
  constructor(events) {
    /** @type {Map<string, EntryEvent>} */
    this.byId = new Map();
    /** @type {Map<string, EntryEvent[]>} */
    this.places = new Map();
    /** @type {Set<string>} */
    this.replaced = new Set();
    /** How often something came. */
    this.version = 0;
    this.add(events);
  }

  /** @param {EntryEvent[]} events */
  add(events) {
    for (const event of events) this.take(event);
    this.version += 1;
    /** @type {Map<string, EntryEvent[]>} */
    this.heads = new Map();
    /** @type {EntryEvent[] | null} */
    this.sorted = null;
  }

  /** @param {EntryEvent} event */
  take(event) {
    if (this.byId.has(event.id)) return;
    this.byId.set(event.id, event);
    const place = key(event.field, event.item);
    const there = this.places.get(place);
    if (there) there.push(event);
    else this.places.set(place, [event]);
    for (const id of event.replaces) this.replaced.add(id);
  }

  /** All of them by time. */
  inOrder() {
    this.sorted ??= [...this.byId.values()].sort(byTime);
    return this.sorted;
  }

  /**
   * Those that nothing has replaced, by time; more than one with different contents is a conflict.
   * @param {string} field
   * @param {string | null} item
   */
  current(field, item) {
    const place = key(field, item);
    let found = this.heads.get(place);
    if (found === undefined) {
      found = (this.places.get(place) ?? []).filter((event) => !this.replaced.has(event.id)).sort(byTime);
      this.heads.set(place, found);
    }
    return found;
  }
}

/** @param {string} field @param {string | null} item */
export const key = (field, item) => `${field} ${item ?? ""}`;

/** @param {EntryEvent} a @param {EntryEvent} b */
function byTime(a, b) {
  const [first, second] = [a.hlc + a.id, b.hlc + b.id];
  return first < second ? -1 : Number(first > second);
}
