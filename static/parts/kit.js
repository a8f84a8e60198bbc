import { inLanguage, phrase } from "../language/phrase.js";
import { instrumentInWords, kindInWords } from "./calibration.js";
import { make, part, say } from "./element.js";
import { concern, kindsNeeded, packKit, suggestion } from "./my-kit.js";
import { openPage } from "./page.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */
/** @typedef {import("./my-kit.js").Need} Need */

/**
 * One kind of instrument: which one is here, and what is wrong with it.
 * @param {VisitSession} session
 * @param {Need} need
 */
function row(session, need) {
  const id = `kit_${need.kind}`;
  const select = make(
    "select",
    { id, "data-kind": need.kind, "aria-describedby": `${id}_steps` },
    make("option", { value: "" }, phrase("None with me")),
    ...need.possible.map((one) => make("option", { value: one.id }, instrumentInWords(one))),
  );
  select.value = suggestion(session, need.possible, need.kind);
  select.disabled = !session.open || need.possible.length === 0;
  const words = make("p", { class: "overdue", role: "status" });
  const tell = () => {
    say(words, concern(need, select.value));
    words.hidden = words.textContent === "";
  };
  select.addEventListener("change", tell);
  tell();
  const kind = kindInWords(need.kind);
  const label = make("label", { for: id }, /^.[A-Z]/.test(kind) ? kind : kind.charAt(0).toUpperCase() + kind.slice(1));
  const steps = make("p", { class: "hint", id: `${id}_steps` }, phrase("For: {steps}", { steps: need.steps.join(", ") }));
  return make("li", { class: "field" }, label, steps, select, words);
}

/**
 * Which instrument of each kind is here, before the work begins. Each entry offers it first and can still name another.
 * @param {HTMLElement} root
 */
export default async function kit(root) {
  const session = await openPage(root);
  if (session === null) return;
  const needs = kindsNeeded(session);
  const list = make("ul", { class: "kit" }, ...needs.map((need) => row(session, need)));
  const selects = () => /** @type {HTMLSelectElement[]} */ ([...list.querySelectorAll("select")]);
  const take = make("button", { type: "button", class: "button" }, phrase("These are with me"));
  take.hidden = !session.open || needs.length === 0;
  take.addEventListener("click", () => {
    packKit(session.visit.id, Object.fromEntries(selects().map((select) => [select.dataset.kind ?? "", select.value])));
    location.assign(inLanguage(`/field/visit?visit=${session.visit.id}`));
  });
  const none = make("p", {}, phrase("This visit measures nothing with an instrument."));
  part(root, "content").replaceChildren(needs.length > 0 ? list : none, take);
}
