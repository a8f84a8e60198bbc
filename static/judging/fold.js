// Events -> the current values of a record. Twin of checks/fold.py, which explains the rules; keep both alike.

const STATEMENTS = ["done", "override", "not_applicable", "not_done"];
const REPEATED = ["series", "defect"];
export const ENTERED = ["plate", "site"];

/**
 * The `entries`, `steps`, `notes` and `defects` of a case, and the events that the procedure has no place for.
 * @param {any} procedure
 * @param {any[]} events
 * @returns {{entries: any, steps: any, notes: any, defects: any, unknown: {id: string, field: string}[]}}
 */
export function fold(procedure, events) {
  const ordered = onceEach(events);
  const before = KEPT.get(procedure) ?? { ordered: [], result: NOTHING };
  const touched = fieldsBetween(before.ordered, ordered);
  const result = touched.size === 0 ? before.result : renewed(before.result, grouped(ordered, touched), ordered, fieldKinds(procedure));
  if (touched.size) {
    TOUCHED.delete(before.result.entries); // or a chain of all that ever was would be kept
    TOUCHED.set(result.entries, { before: before.result.entries, fields: touched });
  }
  KEPT.set(procedure, { ordered, result });
  return { ...result };
}

/**
 * The last fold of a procedure object. A field of which no event came or went since keeps its cells, the same
 * objects: that is how the judging knows that nothing changed there. Events never change.
 */
const KEPT = new WeakMap();
const NOTHING = { entries: {}, steps: {}, notes: {}, defects: {}, unknown: [] };

/**
 * The fields that may differ between the `entries` of two folds, one right after the other; null if they are not.
 * @param {any} before
 * @param {any} after
 * @returns {Iterable<string> | null}
 */
export function touchedBetween(before, after) {
  if (before === after) return [];
  const known = TOUCHED.get(after);
  return known?.before === before ? known.fields : null;
}

const TOUCHED = new WeakMap();

/** The fields of all events between what two histories have in common at their beginning and at their end. */
function fieldsBetween(before, after) {
  let start = 0;
  while (start < before.length && before[start] === after[start]) start += 1;
  let end = 0;
  const most = Math.min(before.length, after.length) - start;
  while (end < most && before[before.length - 1 - end] === after[after.length - 1 - end]) end += 1;
  const fields = (list) => list.slice(start, list.length - end).map((event) => event.field);
  return new Set([...fields(before), ...fields(after)]);
}

/** The events of some fields; a field without any is there, too. */
function grouped(events, fields) {
  const groups = new Map([...fields].map((field) => [field, []]));
  for (const event of events) groups.get(event.field)?.push(event);
  return groups;
}

/** The former result with the values of some fields found anew. */
function renewed(before, groups, ordered, kinds) {
  const { entries, steps, notes, defects } = before;
  const result = { entries: { ...entries }, steps: { ...steps }, notes: { ...notes }, defects: { ...defects }, unknown: [] };
  const isStrange = (event) => hasNoPlace(event, kinds.get(event.field));
  let anyStrange = before.unknown.length > 0;
  for (const [field, events] of groups) {
    const kind = kinds.get(field);
    const known = events.filter((event) => !isStrange(event));
    anyStrange ||= known.length < events.length;
    if (kind !== undefined) put(result, field, kind, known.length ? valueOf(kind, known) : null);
  }
  if (anyStrange) result.unknown = ordered.filter(isStrange).map(({ id, field }) => ({ id, field }));
  return result;
}

const hasNoPlace = ({ item = null }, kind) => kind === undefined || (item !== null && !REPEATED.includes(kind));

/** Every field that an event may name, with the kind of its entry. @param {any} procedure */
function fieldKinds(procedure) {
  const known = FIELD_KINDS.get(procedure);
  if (known) return known;
  const kinds = new Map();
  for (const owner of ENTERED) for (const entry of procedure[owner] ?? []) kinds.set(`${owner}.${entry.id}`, entry.kind);
  for (const step of procedure.steps) {
    for (const entry of step.entries) kinds.set(`${step.id}.${entry.id}`, entry.kind);
    for (const statement of STATEMENTS) kinds.set(`${step.id}#${statement}`, "statement");
    kinds.set(`${step.id}#note`, "note");
    kinds.set(`${step.id}#defect`, "defect");
  }
  FIELD_KINDS.set(procedure, kinds);
  return kinds;
}

const FIELD_KINDS = new WeakMap();

function valueOf(kind, events) {
  if (kind === "statement") return spoken(events);
  if (kind === "note") return filled(heads(events).filter((event) => event.content !== null).map(cell));
  if (kind === "series") return filled(each(events).map(([, cell]) => cell));
  if (kind === "defect") return filled(each(events).map(([item, cell]) => ({ ...cell, item })));
  return current(events);
}

const filled = (list) => (list.length ? list : null);

function put(result, field, kind, value) {
  const [step, statement] = field.split("#");
  if (kind === "note") set(result.notes, step, value);
  else if (kind === "defect") set(result.defects, step, value);
  else if (kind !== "statement") set(result.entries, field, value);
  else {
    const said = { ...result.steps[step] };
    set(said, statement, value);
    set(result.steps, step, Object.keys(said).length ? said : null);
  }
}

function set(table, name, value) {
  if (value === null) delete table[name];
  else table[name] = value;
}

/** Each item with its current value, in the order in which they were begun; removed ones are left out. */
function each(all) {
  const items = new Map();
  for (const event of all) reach(items, event.item ?? null, () => []).push(event);
  const order = [...items].map(([item, events]) => [...first(item, events), item, events]).sort(byPlace);
  return order.map(([, , item, events]) => [item, current(events)]).filter(([, cell]) => cell !== null);
}

/** Each event once, by time. Of two with one id the lesser stays: which, must not depend on who came first. */
function onceEach(events) {
  const known = new Map();
  for (const event of events) {
    const before = known.get(event.id);
    if (before === undefined || (before !== event && byPlace(rank(event), rank(before)) < 0)) known.set(event.id, event);
  }
  if (known.size === events.length && events.every((event, place) => place === 0 || isLater(event, events[place - 1]))) return events;
  return sorted([...known.values()]);
}

const isLater = (event, before) => event.hlc > before.hlc || (event.hlc === before.hlc && event.id > before.id);

const sorted = (events) =>
  events
    .map((event) => [event.hlc, event.id, event])
    .sort(byPlace)
    .map((row) => row[2]);

const rank = (event) => [event.hlc, key(event)];

/** Compares by code units, field by field; what is no text does not count. */
function byPlace(one, other) {
  for (let index = 0; index < one.length; index += 1) {
    if (typeof one[index] !== "string") return 0;
    if (one[index] !== other[index]) return one[index] < other[index] ? -1 : 1;
  }
  return 0;
}

/** The events that no other one replaces; all of them if they replace each other in a ring. */
function heads(events) {
  if (events.length === 1) return events;
  const replaced = new Set(events.flatMap((event) => event.replaces.filter((old) => old !== event.id)));
  const kept = events.filter((event) => !replaced.has(event.id));
  return kept.length ? kept : events;
}

/** The newest current value, the conflict, or null where the value was removed. */
function current(events) {
  const found = heads(events);
  const contents = found.length === 1 ? new Map([["", found[0]]]) : new Map(found.map((event) => [contentKey(event.content), event]));
  if (contents.size > 1) return { conflict: sorted([...contents.values()]).map(cell) };
  const event = found[found.length - 1];
  return event.content === null ? null : cell(event);
}

/** The newest statement; none if anybody who was not contradicted took it back. */
function spoken(events) {
  const found = heads(events);
  if (found.some((event) => event.content === null)) return null;
  const newest = found[found.length - 1];
  return { at: newest.at, ...contentOf(newest) };
}

const isObject = (value) => value !== null && typeof value === "object" && !Array.isArray(value);

const contentOf = (event) => (isObject(event.content) ? event.content : {});

function cell(event) {
  const content = contentOf(event);
  const value = content.value !== undefined ? content.value : (content.sha256 ?? null);
  return { ...content, value, at: event.at, id: event.id };
}

/** Where an item stands in its series: at the time of the event that began it. */
function first(item, events) {
  const began = events.find((event) => event.id === item) ?? events[0];
  return [began.hlc, item ?? ""];
}

/** Two contents with one key say the same: for a number that could be read, how it was typed does not matter. */
function contentKey(content) {
  if (isObject(content) && "typed" in content && (content.value ?? null) !== null) {
    return key({ value: content.value, instrument: content.instrument ?? null });
  }
  return key(content);
}

/** One text per JSON value, whatever the order of its fields. */
export function key(value) {
  if (Array.isArray(value)) return `[${value.map(key).join(",")}]`;
  if (typeof value === "number") return numberKey(value);
  if (value === null || typeof value !== "object") return typeof value === "string" ? `"${value}"` : String(value);
  return `{${Object.keys(value).sort().map((name) => `${name}:${key(value[name])}`).join(",")}}`;
}

function numberKey(value) {
  const [digits, exponent] = value.toExponential(16).split("e");
  return `${digits}e${Number(exponent)}`;
}

function reach(map, name, make) {
  if (!map.has(name)) map.set(name, make());
  return map.get(name);
}
