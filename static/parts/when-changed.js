/**
 * A painter that is called only when what it shows is something else than before. The judgement, the fold and the
 * session keep the same object as long as it says the same, so that looking is much cheaper than painting.
 * @param {() => any[]} read what is shown, in the order in which the painter takes it
 * @param {(...now: any[]) => void} paint
 */
export function whenChanged(read, paint) {
  /** @type {any[] | null} */
  let before = null;
  return () => {
    const now = read();
    if (before?.every((one, index) => one === now[index])) return;
    before = now;
    paint(...now);
  };
}
