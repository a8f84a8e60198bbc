// Small conveniences of this phone: the unit and the instrument that were used last. Losing them costs a touch.

const NAME = "firstwater-habits";

/** @returns {Record<string, string>} */
function all() {
  try {
    return JSON.parse(localStorage.getItem(NAME) ?? "{}");
  } catch {
    return {};
  }
}

/** @param {string} habit */
export function recall(habit) {
  return all()[habit] ?? null;
}

/** @param {string} habit @param {string} value */
export function remember(habit, value) {
  try {
    localStorage.setItem(NAME, JSON.stringify({ ...all(), [habit]: value }));
  } catch {
    // A full or forbidden storage only means that nothing is suggested next time.
  }
}
