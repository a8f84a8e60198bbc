import { phrase } from "../language/phrase.js";
import { make, say } from "./element.js";
import { everySecond } from "./ticking.js";
import { readSpan, runningIn } from "./timer-span.js";
import { duration, moment } from "./words.js";

const SECOND = 1000;

/** @typedef {import("./session.js").VisitSession} VisitSession */
/** @typedef {import("./timer-span.js").Running} Running */

/** When the time is over: to the second where it is asked for, never told too early. @param {{over: number, predicted: boolean}} running */
function endWords({ over, predicted }) {
  const date = new Date(Math.ceil(over / SECOND) * SECOND);
  return predicted ? moment(date) : `${moment(date)}:${String(date.getSeconds()).padStart(2, "0")}`;
}

/** The time that has passed. @param {Running} running @param {number} now */
export function passedWords({ since, until }, now) {
  return until === null ? phrase("{duration} so far", { duration: duration(now - since) }) : phrase("{duration} in all", { duration: duration(until - since) });
}

/** What is still to go and when it is over; empty where nothing says how long. @param {Running} running @param {number} now */
export function leftWords({ until, over, predicted, latest }, now) {
  if (until !== null) return "";
  if (latest !== null && now > latest) return phrase("Longer than foreseen since {moment}.", { moment: moment(new Date(latest)) });
  if (over === null) return latest === null ? "" : phrase("{duration} left, until {moment}.", { duration: duration(latest - now), moment: moment(new Date(latest)) });
  if (now < over) {
    const left = { duration: duration(over - now + SECOND - 1), end: endWords({ over, predicted }) };
    return predicted ? phrase("{duration} to go: over at {end}, as predicted.", left) : phrase("{duration} to go: over at {end}.", left);
  }
  return overWords({ over, predicted });
}

/** @param {{over: number, predicted: boolean}} running */
export function overWords(running) {
  const at = endWords(running);
  return running.predicted ? phrase("The predicted time is over since {at}. The readings decide.", { at }) : phrase("The time asked for is over since {at}.", { at });
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
