import { nearness } from "./after-paint.js";
import { mountDefects } from "./defects.js";
import { part, ready } from "./element.js";
import { mountEntry } from "./entry.js";
import { showExceptions } from "./exceptions.js";
import { showFinish } from "./finish.js";
import { showLastVisit } from "./last-visit.js";
import { failure } from "./failure.js";
import { watchStoring } from "./not-stored.js";
import { openPage } from "./page.js";
import { showState } from "./step-state.js";
import { paintRule } from "./verdict.js";
import { whenChanged } from "./when-changed.js";
import { paintDerived, paintRuleWorking, showLacking } from "./working.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** What only some steps have: the page says which, and names their files in its head. */
const SOMETIMES = {
  drawing: () => import("./drawing.js"),
  photo: () => import("./photo.js"),
  "scan-entry": () => import("./scan-entry.js"),
  series: () => import("./series.js"),
  timer: () => import("./timer.js"),
};

/** @typedef {{[name in keyof typeof SOMETIMES]: Awaited<ReturnType<typeof SOMETIMES[name]>>}} Needed */

/** @param {string} names @returns {Promise<Needed>} those that the page names */
async function neededModules(names) {
  const wanted = Object.entries(SOMETIMES).filter(([name]) => names.split(" ").includes(name));
  return /** @type {any} */ (Object.fromEntries(await Promise.all(wanted.map(async ([name, fetched]) => [name, await fetched()]))));
}

/** @param {HTMLElement} root @param {any} step @param {VisitSession} session @param {Needed} needed */
function mountEntries(root, step, session, needed) {
  for (const entry of step.entries) {
    const element = /** @type {HTMLElement} */ (root.querySelector(`[data-entry="${step.id}.${entry.id}"]`));
    if (entry.kind === "series") needed.series.mountSeries(element, step, entry, session);
    else if (entry.kind === "photo") needed.photo.mountPhoto(element, entry, session);
    else if (entry.kind === "drawing") needed.drawing.mountDrawing(element, entry, session);
    else mountEntry(element, entry, session);
    if (entry.scan) needed["scan-entry"].mountScan(element, step, entry, session);
  }
}

/**
 * What is judged, each painted only when it is something else: verdicts with the keystroke where somebody may look at
 * them; those far from the screen, and the results in between, after its paint.
 * @param {HTMLElement} root @param {any} step @param {VisitSession} session
 */
function watchJudged(root, step, session) {
  for (const { id } of step.entries) {
    const [name, element] = [`${step.id}.${id}`, /** @type {HTMLElement} */ (root.querySelector(`[data-entry="${step.id}.${id}"]`))];
    session.watch(whenChanged(() => [session.exists(name)], (exists) => (element.hidden = !exists)));
  }
  for (const rule of step.rules) watchRule(root, `${step.id}.${rule.id}`, rule, session);
  for (const row of /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-derived]"))) {
    const name = row.dataset.derived ?? "";
    const alternatives = step.derived.filter((/** @type {any} */ one) => `${step.id}.${one.id}` === name);
    session.follow(whenChanged(() => [session.judgement.quantities[name]], () => paintDerived(row, alternatives, session)));
  }
}

/** @param {HTMLElement} root @param {string} name @param {any} rule @param {VisitSession} session */
function watchRule(root, name, rule, session) {
  const element = /** @type {HTMLElement | null} */ (root.querySelector(`[data-rule="${name}"]`));
  if (!element) return;
  const behind = [rule.reading, rule.lower, rule.upper, rule.expected].filter(Boolean);
  const read = () => [session.judgement.rules[name], ...behind.map((quantity) => session.judgement.quantities[quantity])];
  const paint = (/** @type {any} */ judged) => {
    paintRule(element, rule, session);
    if (rule.kind === "limit" && judged) paintRuleWorking(element, rule, judged, session);
  };
  const repaint = whenChanged(read, paint);
  const isNear = nearness(/** @type {Element} */ (element.parentElement));
  session.watch(() => isNear() && repaint());
  session.follow(repaint);
}

/** A signed record is closed until the supervisor returns it. @param {HTMLElement} root @param {VisitSession} session */
function closeInputs(root, session) {
  const closed = part(root, "closed");
  closed.hidden = session.open;
  const form = /** @type {HTMLFormElement} */ (root.querySelector("form"));
  for (const input of /** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("input, select, textarea, button"))) {
    if (!input.closest("details")) input.disabled = !session.open;
  }
}

/**
 * The keypad's "next" goes to the next input, as it says, and never marks the step done.
 * @param {KeyboardEvent} event
 */
function goOn(event) {
  const input = /** @type {HTMLInputElement} */ (event.target);
  if (event.key !== "Enter" || event.defaultPrevented || input.tagName !== "INPUT") return;
  event.preventDefault();
  const inputs = [.../** @type {HTMLFormElement} */ (input.form).elements];
  const next = inputs.slice(inputs.indexOf(input) + 1).find((one) => one.tagName === "INPUT" && one.checkVisibility());
  /** @type {HTMLElement | undefined} */ (next)?.focus();
}

/** @param {HTMLElement} root @param {any} step @param {VisitSession} session */
function mountNote(root, step, session) {
  const input = /** @type {HTMLTextAreaElement} */ (root.querySelector("#note"));
  const field = `${step.id}#note`;
  const take = () => session.type(field, input.value.trim() ? { value: input.value } : null);
  if (input.value !== input.defaultValue) take();
  input.addEventListener("input", take);
  input.addEventListener("change", () => session.flush(field));
  session.follow(() => {
    if (document.activeElement !== input) input.value = session.content(field)?.value ?? "";
  });
}

/**
 * One step: what is typed is judged with every keystroke and stored on the phone.
 * @param {HTMLElement} root
 */
export default async function step(root) {
  const [session, needed] = await Promise.all([openPage(root), neededModules(root.dataset.needs ?? "")]);
  if (session === null) return;
  const found = session.procedure.steps.find((one) => one.id === root.dataset.step);
  const notice = part(root, "notice");
  watchStoring(session, notice);
  mountEntries(root, found, session, needed);
  needed.timer?.mountTimers(root, found, session);
  showLastVisit(root, found, session).catch((error) => notice.replaceChildren(failure(error)));
  mountNote(root, found, session);
  mountDefects(root, found, session);
  root.querySelector("form")?.addEventListener("keydown", goOn);
  showFinish(root, found, session);
  showExceptions(part(root, "exceptions"), found, session);
  ready(root);
  watchJudged(root, found, session);
  session.watch(whenChanged(() => [session.drafts.size > 0], (isUnsaved) => root.toggleAttribute("data-unsaved", isUnsaved)));
  session.watch(whenChanged(() => [session.open], () => closeInputs(root, session)));
  session.follow(() => showState(root, found, session));
  const lacking = part(root, "lacking");
  if (lacking) session.follow(() => showLacking(lacking, found, session));
}
