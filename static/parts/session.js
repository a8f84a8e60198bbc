import { judge } from "../judging/engine.js";
import { fold } from "../judging/fold.js";
import { readSetting } from "../record/database.js";
import { addEvent, eventsOf, instrumentsUsed, subscribe } from "../record/events.js";
import { isOpen, visitOf } from "../record/visits.js";
import { baselineOf, instruments, people, procedureOf, siteOf, unitOf } from "../record/work.js";
import { Labels } from "./labels.js";

const PAUSE = 300;
const LONGEST = 2_000; // of typing without a pause

/**
 * `since` is when the first keystroke came that is not stored yet.
 * @typedef {{field: string, item: string | null, content: any, reason: Reason | null, seen: string[], timer: any, since: number, isStoring: boolean}} Draft
 */

/**
 * A visit as it is open on a page: what is stored, what is being typed, and the judgement of both together.
 * A keystroke changes the judgement at once and is stored after a short pause, at `flush`, or when typing goes on.
 */
export class VisitSession {
  /** @param {any} parts see `openVisit` */
  constructor({ visit, unit, site, procedure, known, people, events, device }) {
    /** @type {StoredVisit} */
    this.visit = visit;
    /** @type {Unit} */
    this.unit = unit;
    /** @type {Site} */
    this.site = site;
    /** @type {Procedure} */
    this.procedure = procedure;
    /** @type {Instrument[]} every instrument that this phone knows */
    this.known = known;
    /** The thumbprint of this phone's key. @type {string | undefined} */
    this.device = device?.thumbprint;
    this.labels = new Labels(procedure, people);
    /** @type {Map<string, EntryEvent>} */
    this.events = new Map(events.map((/** @type {EntryEvent} */ event) => [event.id, event]));
    /** @type {Map<string, Draft>} */
    this.drafts = new Map();
    /** @type {Map<string, Promise<any>>} */
    this.queues = new Map();
    /** @type {Set<() => void>} */
    this.painters = new Set();
    /** @type {(error: any, draft: Draft) => void} */
    this.onfailure = () => {};
    this.onstored = () => {};
    this.judgeAgain();
  }

  get open() {
    return isOpen(this.visit);
  }

  /** Call `painter` now and after every change of what is judged. @param {() => void} painter */
  watch(painter) {
    this.painters.add(painter);
    painter();
  }

  judgeAgain() {
    const events = [...this.events.values(), ...[...this.drafts.values()].map((draft) => this.pretended(draft))].sort(byTime);
    /** @type {Case} */
    this.case = {
      plate: this.unit.plate,
      site: this.site.values,
      baseline: baselineOf(this.unit, this.procedure).values,
      instruments: instrumentsUsed(events, this.known),
      ...fold(this.procedure, events),
    };
    /** @type {Judgement} */
    this.judgement = judge(this.procedure, this.case);
  }

  refresh() {
    this.judgeAgain();
    for (const painter of this.painters) painter();
  }

  /** The draft as the event that it will become. @param {Draft} draft @returns {any} */
  pretended(draft) {
    const { field, item, content, reason, seen } = draft;
    const id = `draft:${field}:${item ?? ""}`;
    return { id, visit: this.visit.id, field, item, content, reason, replaces: seen, at: new Date().toISOString(), hlc: "~" };
  }

  /**
   * The stored events of a field that nothing has replaced; more than one with different contents is a conflict.
   * @param {string} field
   * @param {string | null} item
   */
  current(field, item = null) {
    const events = [...this.events.values()];
    const replaced = new Set(events.flatMap((event) => event.replaces));
    return events
      .filter((event) => event.field === field && event.item === item && !replaced.has(event.id))
      .sort(byTime);
  }

  /**
   * Whether the procedure has this entry here; a condition that is not known yet counts as no.
   * @param {string} name
   */
  exists(name) {
    return this.judgement.quantities[name]?.applies === true;
  }

  /** What is typed or, else, stored. @param {string} field @param {string | null} item */
  content(field, item = null) {
    const draft = this.drafts.get(key(field, item));
    return draft ? draft.content : (this.current(field, item).at(-1)?.content ?? null);
  }

  /**
   * Take what is being typed. It is judged and painted at once and stored after a pause.
   * @param {string} field
   * @param {any} content null removes the value
   * @param {{item?: string | null, reason?: Reason | null}} [more]
   */
  type(field, content, { item = null, reason = null } = {}) {
    const name = key(field, item);
    const before = this.drafts.get(name);
    clearTimeout(before?.timer);
    // What arrives from another phone in between was not seen and must not be replaced.
    const seen = before?.seen ?? this.current(field, item).map((event) => event.id);
    const since = before && !before.isStoring ? before.since : Date.now();
    const timer = setTimeout(() => this.flush(field, item), Math.min(PAUSE, since + LONGEST - Date.now()));
    this.drafts.set(name, { field, item, content, reason, seen, timer, since, isStoring: false });
    this.refresh();
  }

  /** Store what is being typed in one field now. @param {string} field @param {string | null} item */
  flush(field, item = null) {
    const name = key(field, item);
    const draft = this.drafts.get(name);
    if (!draft) return this.queues.get(name) ?? Promise.resolve();
    clearTimeout(draft.timer);
    draft.isStoring = true;
    // One after the other, so that each event names the one before it.
    const stored = (this.queues.get(name) ?? Promise.resolve()).then(() => this.store(name, draft));
    this.queues.set(name, stored);
    return stored;
  }

  /** @param {string} name @param {Draft} draft */
  async store(name, draft) {
    if (this.drafts.get(name) !== draft) return;
    const { field, item, content, reason, seen } = draft;
    try {
      const before = seen.map((id) => /** @type {EntryEvent} */ (this.events.get(id)));
      const event = same(before, content) ? null : await this.write(field, content, { item, reason, replaces: seen });
      const newer = this.drafts.get(name);
      if (newer === draft) this.drafts.delete(name);
      else if (newer && event) newer.seen = [event.id];
      this.onstored();
      this.refresh();
    } catch (error) {
      this.onfailure(error, draft);
    }
  }

  /** Store everything that is being typed. */
  flushAll() {
    return Promise.all([...this.drafts.values()].map((draft) => this.flush(draft.field, draft.item)));
  }

  /**
   * Store one statement now; resolves with its event when it is durable.
   * @param {string} field
   * @param {any} content
   * @param {{item?: string | "new" | null, reason?: Reason | null, replaces?: string[]}} [more]
   */
  async write(field, content, { item = null, reason = null, replaces } = {}) {
    const seen = replaces ?? (item === "new" ? [] : this.current(field, item).map((event) => event.id));
    const event = await addEvent({ visit: this.visit.id, field, item, content, replaces: seen, reason });
    this.events.set(event.id, event);
    this.refresh();
    return event;
  }

  /** Take over what another window or the sending has stored. */
  async reload() {
    const [visit, events] = await Promise.all([visitOf(this.visit.id), eventsOf(this.visit.id)]);
    const news = visit.state !== this.visit.state || events.some((event) => !this.events.has(event.id));
    if (!news) return;
    this.visit = visit;
    for (const event of events) this.events.set(event.id, event);
    this.refresh();
  }
}

/** @param {string} field @param {string | null} item */
const key = (field, item) => `${field} ${item ?? ""}`;

/** @param {EntryEvent} a @param {EntryEvent} b */
function byTime(a, b) {
  const [first, second] = [a.hlc + a.id, b.hlc + b.id];
  return first < second ? -1 : Number(first > second);
}

/** @param {EntryEvent[]} before @param {any} content */
function same(before, content) {
  if (before.length === 0) return content === null;
  return before.length === 1 && JSON.stringify(before[0].content) === JSON.stringify(content);
}

/**
 * Everything of a visit from this phone; needs no signal. Rejects with `NotOnThisPhone` or `StorageError`.
 * @param {string} id
 */
export async function openVisit(id) {
  const visit = await visitOf(id);
  const [events, unit, procedure, known, everybody, device] = await Promise.all([
    eventsOf(id),
    unitOf(visit.unit),
    procedureOf(visit.procedure),
    instruments(),
    people(),
    readSetting("device"),
  ]);
  const site = await siteOf(unit.site);
  return new VisitSession({ visit, unit, site, procedure, known, people: everybody, events, device });
}

/**
 * Keep the session fresh while the page is open, and store what is typed when it is left.
 * @param {VisitSession} session
 */
export function keepFresh(session) {
  subscribe(session.visit.id, () => session.reload());
  document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && session.flushAll());
  addEventListener("pagehide", () => session.flushAll());
}
