// What a keystroke means is painted first; what only follows from it comes after that paint, in short pieces, so that
// the next keystroke never waits for all of it.

/** How long one piece may take, in milliseconds. */
const PIECE = 8;
/** A page that is not shown is not painted: it waits so long and no longer. */
const UNPAINTED = 200;

/** Resolves when what stands on the page now has been painted. @returns {Promise<void>} */
export function painted() {
  return new Promise((resolve) => {
    if (document.visibilityState === "hidden") return resolve();
    const timer = setTimeout(resolve, UNPAINTED);
    // A frame's callbacks run before it is painted, a task that they start runs after.
    requestAnimationFrame(() => {
      clearTimeout(timer);
      setTimeout(resolve);
    });
  });
}

/** Let the browser do what is more urgent: keystrokes before all. @returns {Promise<unknown>} */
function breathe() {
  const { scheduler } = /** @type {any} */ (globalThis);
  return scheduler?.yield ? scheduler.yield() : new Promise((resolve) => setTimeout(resolve));
}

/** Runs its jobs after the next paint, each once however often it was asked for until then. */
export class Followers {
  constructor() {
    /** @type {Set<() => unknown>} */
    this.waiting = new Set();
    this.isRunning = false;
  }

  /** @param {Iterable<() => unknown>} jobs */
  ask(jobs) {
    for (const job of jobs) {
      // To the end: a job that is asked for again while others run must see what they saw.
      this.waiting.delete(job);
      this.waiting.add(job);
    }
    if (!this.isRunning) this.run();
  }

  async run() {
    this.isRunning = true;
    await painted();
    let began = performance.now();
    for (const job of this.waiting) {
      this.waiting.delete(job);
      try {
        job();
      } catch (error) {
        reportError(error); // one that fails takes no other along
      }
      if (performance.now() - began < PIECE) continue;
      await breathe();
      began = performance.now();
    }
    this.isRunning = false;
  }
}

/**
 * The callback, once after the next paint however often it is asked for until then.
 * @param {() => unknown} callback
 * @returns {() => void}
 */
export function afterPaint(callback) {
  const followers = new Followers();
  return () => followers.ask([callback]);
}

/** How far beyond the screen is still near: nobody scrolls further between a keystroke and what follows it. */
const MARGIN = "50% 0px";

/** @type {WeakSet<Element>} */
const far = new WeakSet();

/** @type {IntersectionObserver | undefined} */
let observer;

/** @param {IntersectionObserverEntry[]} seen */
function note(seen) {
  for (const { target, isIntersecting } of seen) {
    if (isIntersecting) far.delete(target);
    else far.add(target);
  }
}

/**
 * Whether a part of the page is on the screen, nearly so, or being typed in; true until the browser has looked.
 * @param {Element} place one that is laid out, whatever it holds
 * @returns {() => boolean}
 */
export function nearness(place) {
  observer ??= new IntersectionObserver(note, { rootMargin: MARGIN });
  observer.observe(place);
  return () => !far.has(place) || place.contains(document.activeElement);
}
