import { FAILED } from "../judging/standing.js";
import { phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { stateWords } from "./state-words.js";
import { moment } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** The server takes no longer text. */
const LONGEST = 4000;

/**
 * A way off the usual path, which always needs a reason.
 * @param {{title: string, label?: string, hint: string, action: string, id: string, state: (reason: string) => Promise<any>}} about
 */
function askForReason({ title, label = phrase("Reason"), hint, action, id, state }) {
  const input = make("textarea", { id, rows: "2", maxlength: LONGEST, autocomplete: "off", "aria-describedby": `${id}-hint ${id}-error` });
  const error = make("p", { class: "error", id: `${id}-error` });
  const go = async () => {
    const reason = input.value.trim();
    error.textContent = reason ? "" : phrase("Write the reason first: it becomes part of the record.");
    if (!reason) return input.focus();
    try {
      await state(reason);
      input.value = "";
      details.open = false;
    } catch (problem) {
      error.textContent = /** @type {Error} */ (problem).message;
    }
  };
  const details = make(
    "details",
    { class: "card" },
    make("summary", {}, title),
    make(
      "div",
      { class: "field" },
      make("label", { for: id }, label),
      make("p", { class: "hint", id: `${id}-hint` }, hint),
      input,
      error,
    ),
    make("button", { type: "button", class: "button quiet", onclick: go }, action),
  );
  return details;
}

/**
 * What was stated, by whom, and the way back.
 * @param {string} field @param {string} words @param {VisitSession} session
 */
function stated(field, words, session) {
  const [event] = session.current(field);
  const back = make("button", { type: "button", class: "button quiet small", onclick: () => session.write(field, null) }, phrase("Take back"));
  return make(
    "div",
    { class: "notice", "data-kind": "warning" },
    make("p", {}, `${words} ${phrase("Reason: {reason}", { reason: event.content.reason })}`),
    make("p", { class: "muted" }, `${session.labels.person(event.by)}, ${moment(event.at)}`),
    session.open ? back : null,
  );
}

/**
 * Work that cannot go on ends in a record that says so, instead of a visit that nobody can sign.
 * @param {string} field @param {VisitSession} session
 */
function couldNotBeDone(field, session) {
  return askForReason({
    title: phrase("This step could not be done"),
    label: phrase("Why it could not be done, or not be put right"),
    hint: phrase("What waits for this step counts as not reached. The record can be signed and fails: the unit must not be used."),
    action: phrase("It could not be done, for this reason"),
    id: "undone-reason",
    state: (reason) => session.write(field, { reason }),
  });
}

/** Whatever has not passed may turn out to be impossible. @param {any} step @param {VisitSession} session */
function mayBeUndone(step, session) {
  const { state, verdict } = session.judgement.steps[step.id];
  return session.open && state !== "not_applicable" && (state !== "done" || FAILED.includes(verdict));
}

/**
 * Override, not applicable and could not be done. A hold offers no way round.
 * @param {HTMLElement} place
 * @param {any} step
 * @param {VisitSession} session
 */
export function showExceptions(place, step, session) {
  const [override, left, undone] = ["override", "not_applicable", "not_done"].map((one) => `${step.id}#${one}`);
  const parts = (/** @type {string} */ state) => {
    const found = [];
    const said = session.case.steps[step.id] ?? {};
    if (said.override) found.push(stated(override, phrase("Done although a step that comes first was not met."), session));
    else if (state === "waiting" && session.open) {
      found.push(
        askForReason({
          title: phrase("Go on although this waits"),
          hint: `${stateWords(session, step)} ${phrase("Going on makes the record conditional.")}`,
          action: phrase("Go on, with this reason"),
          id: "override-reason",
          state: (reason) => session.write(override, { reason }),
        }),
      );
    }
    if (said.not_done) found.push(stated(undone, phrase("Could not be done."), session));
    else if (mayBeUndone(step, session)) found.push(couldNotBeDone(undone, session));
    if (said.not_applicable) found.push(stated(left, phrase("Left out as not applicable."), session));
    else if (step.optional && session.open) {
      found.push(
        askForReason({
          title: phrase("This step does not apply here"),
          hint: phrase("Why this unit or place does not have it."),
          action: phrase("Leave it out, with this reason"),
          id: "not-applicable-reason",
          state: (reason) => session.write(left, { reason }),
        }),
      );
    }
    return found;
  };
  let shown = "";
  session.follow(() => {
    const { state } = session.judgement.steps[step.id];
    const { override: overridden, not_applicable, not_done } = session.case.steps[step.id] ?? {};
    const now = JSON.stringify([state, session.open, overridden, not_applicable, not_done, mayBeUndone(step, session)]);
    if (now === shown) return;
    shown = now;
    place.replaceChildren(...parts(state));
  });
}
