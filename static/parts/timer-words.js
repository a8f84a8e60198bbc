import { make, say } from "./element.js";
import { everySecond } from "./ticking.js";
import { readSpan, runningIn } from "./timer-span.js";
import { duration, moment } from "./words.js";

const MINUTE = 60_000;

/** @typedef {import("./session.js").VisitSession} VisitSession */
/** @typedef {import("./timer-span.js").Running} Running */

/** A time on the wall, never told too early. @param {number} at */
const wholeMinute = (at) => moment(new Date(Math.ceil(at / MINUTE) * MINUTE));

/** The time that has passed. @param {Running} running @param {number} now */
export function passedWords({ since, until }, now) {
  return until === null ? `${duration(now - since)} so far` : `${duration(until - since)} in all`;
}

/** What is still to go and when it is over; empty where nothing says how long. @param {Running} running @param {number} now */
export function leftWords({ until, over, predicted, latest }, now) {
  if (until !== null) return "";
  if (latest !== null && now > latest) return `Longer than foreseen since ${wholeMinute(latest)}.`;
  if (over === null) return latest === null ? "" : `${duration(latest - now)} left, until ${moment(new Date(latest))}.`;
  if (now < over) return `${duration(over - now + 999)} to go: over at ${wholeMinute(over)}${predicted ? ", as predicted" : ""}.`;
  return overWords({ over, predicted });
}

/** @param {{over: number, predicted: boolean}} running */
export function overWords({ over, predicted }) {
  const at = wholeMinute(over);
  return predicted ? `The predicted time is over since ${at}. The readings decide.` : `The time asked for is over since ${at}.`;
}

/** @param {Running} running @param {number} now */
export const isOver = ({ until, over }, now) => until === null && over !== null && now >= over;

/**
 * The running timers of a step, for a row of the visit's list.
 * @param {VisitSession} session @param {any} step
 */
export function timerLines(session, step) {
  return runningIn(session, step).map(({ span }) => {
    const line = make("span", { class: "line running" });
    everySecond(line, () => {
      const running = readSpan(span, session);
      if (running === null) return;
      const now = Date.now();
      say(line, [`${span.label}: ${passedWords(running, now)}.`, leftWords(running, now)].filter(Boolean).join(" "));
      line.toggleAttribute("data-over", isOver(running, now));
    });
    return line;
  });
}
