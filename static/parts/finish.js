import { phrase } from "../language/phrase.js";
import { make, part, say } from "./element.js";
import { failure } from "./failure.js";
import { isOwned, plateAddress } from "./plate-missing.js";
import { readBack } from "./read-back.js";
import { changedSince, stateWords } from "./state-words.js";
import { moment } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/**
 * What keeps the step from being marked done, each with the address of the input where it is put right.
 * @param {any} step
 * @param {VisitSession} session
 * @returns {{sentence: string, target: string | null}[]}
 */
function obstacles(step, session) {
  const judged = session.judgement.steps[step.id];
  if (judged.state === "held" || judged.state === "waiting") return [{ sentence: stateWords(session, step), target: null }];
  const unusable = step.entries.flatMap((/** @type {any} */ entry) => {
    const { error } = readBack(session.content(`${step.id}.${entry.id}`), entry, session);
    return error && session.exists(`${step.id}.${entry.id}`) ? [{ sentence: `${entry.label}: ${error}`, target: `#${targetOf(entry)}` }] : [];
  });
  const missing = judged.missing.map((/** @type {string} */ name) => missingOne(name, step, session));
  return [...unusable, ...missing];
}

/** @param {any} entry */
function targetOf(entry) {
  return entry.kind === "choice" || entry.kind === "yes_no" ? `entry_${entry.id}-0` : `entry_${entry.id}`;
}

/** @param {string} name @param {any} step @param {VisitSession} session */
function missingOne(name, step, session) {
  const [group, id] = name.split(".");
  const entry = group === step.id ? step.entries.find((/** @type {any} */ one) => one.id === id) : null;
  const where = entry || group === step.id ? session.labels.of(name) : session.labels.withPlace(name);
  const target = entry ? `#${targetOf(entry)}` : isOwned(name) ? plateAddress(session, name) : null;
  return { sentence: phrase("Not entered yet: {where}", { where }), target };
}

/** @param {HTMLElement} place @param {{sentence: string, target: string | null}[]} found */
function showObstacles(place, found) {
  const rows = found.map(({ sentence, target }) => make("li", {}, target ? make("a", { href: target }, sentence) : sentence));
  const summary = make(
    "div",
    { class: "error-summary", role: "alert", tabindex: "-1" },
    make("h2", {}, phrase("This step cannot be marked done yet")),
    make("ul", {}, ...rows),
  );
  place.replaceChildren(summary);
  summary.focus();
}

/** @param {any} step @param {VisitSession} session */
function doneWords(step, session) {
  const [statement] = session.current(`${step.id}#done`);
  const said = statement ? phrase("Marked done {moment} by {person}.", { moment: moment(statement.at), person: session.labels.person(statement.by) }) : "";
  const { state, verdict } = session.judgement.steps[step.id];
  if (state === "recheck") {
    const names = changedSince(session, step);
    return [said, phrase("Changed since: {names}. Look at it again; then mark it done again.", { names: names.length ? names.join(", ") : phrase("something it rests on") })];
  }
  if (state !== "done") return [];
  const failed = phrase("It does not pass. Correct the cause, measure again and mark it done again; until then leave the unit out of use, locked and tagged, and tell the person responsible.");
  return verdict === "fail" || verdict === "no_valid_setting" ? [said, failed] : [said];
}

/**
 * The end of a step: a person says that it is done, and what its verdict rested on is kept with that.
 * @param {HTMLElement} root
 * @param {any} step
 * @param {VisitSession} session
 */
export function showFinish(root, step, session) {
  const [place, button, notice] = [part(root, "finish-state"), part(root, "done"), part(root, "notice")];
  const takeBack = make("button", { type: "button", class: "button quiet", "data-part": "not-done" }, phrase("Not done after all"));
  button.after(takeBack);
  const attempt = async (/** @type {() => Promise<any>} */ statement) => {
    try {
      await session.flushAll();
      await statement();
    } catch (error) {
      notice.replaceChildren(failure(error));
    }
  };
  button.addEventListener("click", () =>
    attempt(async () => {
      const found = obstacles(step, session);
      if (found.length > 0) return showObstacles(notice, found);
      notice.replaceChildren();
      await session.write(`${step.id}#done`, { seen: session.judgement.steps[step.id].basis });
    }),
  );
  takeBack.addEventListener("click", () => attempt(() => session.write(`${step.id}#done`, null)));
  session.follow(() => {
    const { state } = session.judgement.steps[step.id];
    const stated = Boolean(session.case.steps[step.id]?.done);
    button.hidden = !session.open || ["done", "not_applicable", "not_done"].includes(state);
    takeBack.hidden = !session.open || !stated || state === "not_done";
    say(button, state === "recheck" ? phrase("Mark this step done again") : phrase("Mark this step done"));
    root.querySelector('a[rel="next"]')?.classList.toggle("quiet", !["done", "not_applicable", "not_done"].includes(state));
    const words = doneWords(step, session).filter(Boolean);
    if (place.textContent !== words.join("")) place.replaceChildren(...words.map((text) => make("p", {}, text)));
  });
}
