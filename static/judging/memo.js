// What was computed last, kept for the next judgement: while one number is typed, all others stay as they are.

/** One remembered result for each place that asks; it holds while all its parts are the very same values. */
export class Memo {
  constructor() {
    this.known = new Map();
  }

  /**
   * The result that belongs to these parts: the last one if nothing changed, else what `make` gives now.
   * @template T
   * @param {string} place
   * @param {any[]} parts
   * @param {() => T} make
   * @returns {T} not to be changed by the caller
   */
  of(place, parts, make) {
    const last = this.known.get(place);
    if (last !== undefined && same(last.parts, parts)) return last.result;
    const result = make();
    this.known.set(place, { parts, result });
    return result;
  }
}

/** @param {any[]} before @param {any[]} now */
function same(before, now) {
  if (before.length !== now.length) return false;
  for (let index = 0; index < now.length; index += 1) if (!Object.is(before[index], now[index])) return false;
  return true;
}

/** Deep equality of JSON values. @param {any} one @param {any} other @returns {boolean} */
export function alike(one, other) {
  if (one === other) return true;
  if (one === null || other === null || typeof one !== "object" || typeof other !== "object") return false;
  const names = Object.keys(one);
  if (Array.isArray(one) !== Array.isArray(other) || names.length !== Object.keys(other).length) return false;
  return names.every((name) => Object.hasOwn(other, name) && alike(one[name], other[name]));
}
