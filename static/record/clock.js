// Hybrid logical time: orders events of several phones, near the time of day (Kulkarni, Demirbas et al. 2014, figure 5).


const LARGEST_COUNT = 0xffff;

/** How far another clock may be ahead before it no longer moves ours, in milliseconds. */
export const LARGEST_LEAD = 5 * 60 * 1000;

/** @type {ClockState} */
export const START = { time: 0, count: 0 };

/**
 * @param {number} time
 * @param {number} count
 * @returns {ClockState}
 */
function carried(time, count) {
  return count > LARGEST_COUNT ? { time: time + 1, count: 0 } : { time, count };
}

/**
 * The time of the next event made here.
 * @param {ClockState} state the last time that was given or seen
 * @param {number} now the phone's clock in milliseconds
 * @returns {ClockState}
 */
export function next(state, now) {
  const time = Math.max(state.time, now);
  return carried(time, time === state.time ? state.count + 1 : 0);
}

/**
 * The clock after an event of another phone was seen. A time too far ahead does not move it: one phone set a year
 * ahead would otherwise take every other phone along.
 * @param {ClockState} state
 * @param {ClockState} remote
 * @param {number} now
 * @returns {ClockState}
 */
export function received(state, remote, now) {
  if (remote.time - now > LARGEST_LEAD) return state;
  const time = Math.max(state.time, remote.time, now);
  if (time === state.time && time === remote.time) return carried(time, Math.max(state.count, remote.count) + 1);
  if (time === state.time) return carried(time, state.count + 1);
  if (time === remote.time) return carried(time, remote.count + 1);
  return { time, count: 0 };
}

/**
 * `2026-11-25T09:30:00.000Z-0000-NODE`, which sorts as text in the order of time, count and node.
 * @param {ClockState} state
 * @param {string} node
 */
export function written(state, node) {
  return `${new Date(state.time).toISOString()}-${state.count.toString(16).padStart(4, "0")}-${node}`;
}

/**
 * @param {string} text as `written` gives it; the node may contain hyphens
 * @returns {ClockState}
 */
export function read(text) {
  return { time: Date.parse(text.slice(0, 24)), count: parseInt(text.slice(25, 29), 16) };
}

/** The first eight characters of a device's thumbprint stand for it. @param {string} thumbprint */
export function nodeOf(thumbprint) {
  return thumbprint.slice(0, 8);
}
