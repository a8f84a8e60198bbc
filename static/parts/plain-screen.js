import { phrase } from "../language/phrase.js";
import { make } from "./element.js";

/**
 * Something out of the ordinary, in plain words. `safe` says what is not lost, `otherwise` what follows when nobody does
 * anything; the buttons that do what `now` says stand right below it.
 * @typedef {{id?: string, kind?: "info" | "warning" | "error", title: string, happened: string | Node, safe: string,
 *   now: string | Node, otherwise: string, actions?: (Node | null)[]}} Situation
 */

/**
 * The screen of a situation: what happened, what is safe, what to do now, what if not.
 * @param {Situation} about
 */
export function plainScreen({ id, kind = "warning", title, happened, safe, now, otherwise, actions = [] }) {
  const rows = [
    [phrase("What happened"), happened],
    [phrase("What is safe"), safe],
    [phrase("What to do now"), now],
  ];
  const buttons = actions.filter((one) => one !== null);
  return make(
    "section",
    { class: "notice plain-screen", "data-kind": kind, id, tabindex: "-1", role: "status" },
    make("h2", {}, title),
    make("dl", {}, ...rows.flatMap(([term, words]) => [make("dt", {}, term), make("dd", {}, words)])),
    buttons.length ? make("div", { class: "row" }, ...buttons) : null,
    make("dl", {}, make("dt", {}, phrase("If you do nothing")), make("dd", {}, otherwise)),
  );
}

/** @param {string} words @param {() => unknown} onclick @param {boolean} [quiet] */
export function action(words, onclick, quiet = false) {
  return make("button", { type: "button", class: quiet ? "button quiet" : "button", onclick }, words);
}
