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
    /** @type {EntryEvent[] | null} */
    this.sorted = null;
    this.add(events);
  }

  /** @param {EntryEvent[]} events */
  add(events) {
    const before = this.sorted;
    const fresh = events.filter((event) => this.take(event));
    this.version += 1;
    /** @type {Map<string, EntryEvent[]>} */
    this.heads = new Map();
    const isNewest = before && fresh.length === 1 && (before.length === 0 || byTime(before[before.length - 1], fresh[0]) < 0);
    // A new list, because the fold remembers the former one.
    this.sorted = isNewest ? [...before, fresh[0]] : fresh.length ? null : before;
  }

  /** @param {EntryEvent} event @returns {boolean} whether it was not there yet */
  take(event) {
    if (this.byId.has(event.id)) return false;
    this.byId.set(event.id, event);
    const place = key(event.field, event.item);
    const there = this.places.get(place);
    if (there) there.push(event);
    else this.places.set(place, [event]);
    for (const id of event.replaces) this.replaced.add(id);
    return true;
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
