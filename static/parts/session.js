import { judge } from "../judging/engine.js";
import { fold } from "../judging/fold.js";
import { readSetting } from "../record/database.js";
import { addEvent, eventCountOf, eventsOf, instrumentsUsed, subscribe } from "../record/events.js";
import { isOpen, visitOf } from "../record/visits.js";
import { baselineOf, instruments, people, procedureOf, siteOf, unitOf } from "../record/work.js";
import { afterPaint, Followers } from "./after-paint.js";
import { Labels } from "./labels.js";
import { key, StoredEvents } from "./stored-events.js";

const PAUSE = 300;
const LONGEST = 2_000; // of typing without a pause

/**
 * `since` is when the first keystroke came that is not stored yet; `event` is the event that it will become.
 * @typedef {{field: string, item: string | null, content: any, reason: Reason | null, seen: string[], timer: any, since: number, isStoring: boolean, event?: any}} Draft
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
    this.stored = new StoredEvents(events);
    /** @type {Map<string, Draft>} */
    this.drafts = new Map();
    /** @type {Map<string, Promise<any>>} */
    this.queues = new Map();
    /** @type {Set<() => void>} */
    this.painters = new Set();
    /** @type {Set<() => void>} */
    this.followers = new Set();
    this.following = new Followers();
    /** @type {{version: number, used: Record<string, Instrument>} | null} */
    this.named = null;
    /** @type {(error: any, draft: Draft) => void} */
    this.onfailure = () => {};
    this.onstored = () => {};
    this.baseline = baselineOf(unit, procedure).values;
    /** What is judged now and what that gives; null when something changed since. @type {{case: Case, judgement: Judgement} | null} */
    this.judged = null;
    this.isSettling = false;
    this.settled = () => this.isSettling && this.paint();
  }

  get case() {
    return (this.judged ?? this.judgeAgain()).case;
  }

  /** Of everything that is stored and typed, whenever it is asked for. */
  get judgement() {
    return (this.judged ?? this.judgeAgain()).judgement;
  }

  get open() {
    return isOpen(this.visit);
  }

  /** What is stored, by id. */
  get events() {
    return this.stored.byId;
  }

  /** Call `painter` now and after every change of what is judged, before the page is painted. @param {() => void} painter */
  watch(painter) {
    this.painters.add(painter);
    painter();
  }

  /**
   * Call `painter` now and after the paint that follows a change of what is judged: for what nobody looks at while a
   * verdict is awaited.
   * @param {() => void} painter
   */
  follow(painter) {
    this.followers.add(painter);
    painter();
  }

  judgeAgain() {
    const events = this.eventsNow();
    /** @type {Case} */
    const now = {
      plate: this.unit.plate,
      site: this.site.values,
      baseline: this.baseline,
      instruments: this.instrumentsNow(events),
      ...fold(this.procedure, events),
    };
    this.judged = { case: now, judgement: judge(this.procedure, now) };
    return this.judged;
  }

  /** What is stored and what is being typed, in the order of time: drafts are the newest. */
  eventsNow() {
    if (this.drafts.size === 0) return this.stored.inOrder();
    const drafts = [...this.drafts.values()].map((draft) => (draft.event ??= this.pretended(draft)));
    return [...this.stored.inOrder(), ...drafts.sort((a, b) => (a.id < b.id ? -1 : 1))];
  }

  /**
   * Found anew only when an event was stored, or when one is being typed with another instrument than those.
   * @param {EntryEvent[]} events
   */
  instrumentsNow(events) {
    const [{ version }, known] = [this.stored, this.named];
    const drafts = events.slice(this.events.size);
    if (known?.version === version && drafts.every(({ content }) => !content?.instrument || content.instrument in known.used)) return known.used;
    this.named = { version, used: instrumentsUsed(events, this.known) };
    return this.named.used;
  }

  /** Judge at once; paint the verdicts with it, and what follows from them after that paint. */
  refresh() {
    this.judged = null;
    this.paint();
  }

  paint() {
    this.isSettling = false;
    for (const painter of this.painters) painter();
    this.following.ask(this.followers);
  }

  /** What was typed is stored now and says the same: whoever asks has the judgement of that, but no keystroke waits for it. */
  settle() {
    this.judged = null;
    this.isSettling = true;
    this.following.ask([this.settled]);
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
    return this.stored.current(field, item);
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
      const event = same(before, content) ? null : await this.keep(field, content, { item, reason, replaces: seen });
      const newer = this.drafts.get(name);
      if (newer === draft) this.drafts.delete(name);
      else if (newer && event) Object.assign(newer, { seen: [event.id], event: undefined });
      this.onstored();
      this.settle();
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
    const event = await this.keep(field, content, { item, reason, replaces: seen });
    this.refresh();
    return event;
  }

  /**
   * Durable when the promise resolves; not judged yet.
   * @param {string} field
   * @param {any} content
   * @param {{item: string | "new" | null, reason: Reason | null, replaces: string[]}} more
   */
  async keep(field, content, more) {
    const event = await addEvent({ visit: this.visit.id, field, content, ...more });
    this.stored.add([event]);
    return event;
  }

  /** Take over what another window or the sending has stored. */
  async reload() {
    const { id } = this.visit;
    const [visit, count] = await Promise.all([visitOf(id), eventCountOf(id)]);
    const isNews = count !== this.events.size;
    if (!isNews && visit.state === this.visit.state) return;
    const events = isNews ? await eventsOf(id) : [];
    this.visit = visit;
    this.stored.add(events);
    this.refresh();
  }
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
  subscribe(session.visit.id, afterPaint(() => session.reload()));
  document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && session.flushAll());
  addEventListener("pagehide", () => session.flushAll());
}
