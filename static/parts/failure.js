import { phrase } from "../language/phrase.js";
import { make } from "./element.js";

/**
 * A message with its stable code, for what went wrong.
 * @param {any} error an error with a sentence and perhaps a `code`
 * @param {string} [kind]
 */
export function failure(error, kind = "error") {
  const known = typeof error?.code === "string";
  if (!known) console.error(error);
  const unknown = phrase("Something went wrong on this page. What you entered is kept on this phone: reload the page.");
  return make(
    "div",
    { class: "notice", "data-kind": kind, role: "alert" },
    make("p", {}, known ? error.message : unknown),
    make("p", { class: "code" }, phrase("Code:"), " ", make("code", {}, known ? error.code : "page_failed")),
  );
}
