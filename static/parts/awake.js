/** @typedef {"off" | "on" | "refused"} Awake */

/**
 * Keep the screen on while something on it is watched. The phone lets it go whenever the page is hidden, so it is asked
 * again when the page is back.
 * @param {(state: Awake) => void} tell
 * @returns {(watched: boolean) => void} say whether it is watched; the same word twice does nothing
 */
export function screenKeeper(tell) {
  /** @type {WakeLockSentinel | null} */
  let lock = null;
  let wanted = false;
  let asking = false;
  const release = () => lock?.release().catch(() => {});
  const ask = async () => {
    if (!wanted || lock || asking || document.visibilityState !== "visible") return;
    asking = true;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => {
        lock = null;
        // Hidden, or done with; else the phone took it back.
        tell(wanted && document.visibilityState === "visible" ? "refused" : "off");
      });
      tell("on");
    } catch {
      // Battery saving, a setting, or a browser without it: the page says so, the time runs on.
      tell("refused");
    } finally {
      asking = false;
    }
    if (!wanted) release();
  };
  document.addEventListener("visibilitychange", ask);
  return (watched) => {
    if (watched === wanted) return;
    wanted = watched;
    if (watched) ask();
    else if (lock) release();
    else tell("off");
  };
}
