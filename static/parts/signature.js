import { inLanguage, noop, phrase, written } from "../language/phrase.js";
import { buildRecord, signRecord } from "../signing/record.js";
import { preparedFor } from "../signing/device-key.js";
import { confirmWithPasskey, usablePasskeys } from "../signing/passkey.js";
import { subscribe } from "../record/events.js";
import { unsent } from "../record/outbox.js";
import { make, part, say } from "./element.js";
import { failure } from "./failure.js";
import { action, plainScreen } from "./plain-screen.js";
import { clockTime, day, VISIT_STATES, zone } from "./words.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** Comes when it is wanted: a page that is only looked at loads no sending. */
const sendNow = async () => (await import("../sync/send.js")).sendNow();

const MEANING = noop("I carried out these checks, and the readings are mine.");

/** What happened with the record since it was signed. @param {VisitSession} session */
async function afterwards(session) {
  const { visit } = session;
  const waiting = (await unsent()).records.some((record) => record.visit === visit.id);
  const words = {
    signed: waiting
      ? phrase("Signed and stored on this phone. It waits to be sent; that happens by itself as soon as there is signal.")
      : phrase("Signed, and received by the server. The supervisor looks at it next."),
    accepted: phrase("The supervisor has accepted this record."),
  };
  if (visit.state === "quarantined") return setAside();
  const text = /** @type {any} */ (words)[visit.state];
  if (!text) return null;
  return make(
    "div",
    { class: "card" },
    make("h2", {}, phrase(VISIT_STATES[visit.state])),
    make("p", {}, text),
    visit.record ? make("p", { class: "code" }, phrase("Record"), " ", make("code", {}, visit.record.slice(0, 16))) : null,
    waiting ? make("button", { type: "button", class: "button quiet", onclick: () => sendNow() }, phrase("Send now")) : null,
    make("p", {}, make("a", { class: "way", href: inLanguage("/field/waiting") }, phrase("What waits to be sent"))),
  );
}

function setAside() {
  return plainScreen({
    title: phrase("The server has set this record aside"),
    happened: phrase("It arrived, but could not be verified, for example because this phone's key was withdrawn before."),
    safe: phrase("The whole record is on this phone and on the server, and the supervisor sees the reason."),
    now: phrase("Tell the supervisor. Once it was looked at, this visit comes back as returned: then look through it and sign again."),
    otherwise: phrase("The record does not count, and the unit stays without one."),
    actions: [make("a", { class: "button", href: inLanguage("/field/attention") }, phrase("What needs you")), action(phrase("Send now"), () => sendNow(), true)],
  });
}

/** @param {HTMLElement} root @param {VisitSession} session @param {Person} person */
function showWhoAndWhen(root, session, person) {
  const place = part(root, "signed-things");
  const tick = () => {
    const now = new Date();
    const time = `${written(day(now))} ${clockTime(now)} ${zone(now)}`;
    const rows = [
      [phrase("Unit"), `${session.unit.name}, ${session.unit.serial}`],
      [phrase("Site"), session.site.name],
      [phrase("Name"), person.name],
      [phrase("Time"), time],
    ];
    const text = rows.join();
    if (place.dataset.shown === text) return;
    place.dataset.shown = text;
    place.replaceChildren(...rows.flatMap(([term, value]) => [make("dt", {}, term), make("dd", {}, value)]));
  };
  tick();
  setInterval(tick, 5000);
  say(part(root, "meaning"), phrase(MEANING));
}

/** @param {HTMLElement} root @param {VisitSession} session */
function mayBeSigned(root, session) {
  const complete = session.judgement.record.state === "complete";
  const prepared = !part(root, "signature").dataset.unprepared;
  part(root, "signature").hidden = !(session.open && complete && prepared);
  const words = session.open && !complete ? phrase("It can be signed when nothing blocks it any more: see what needs thought above.") : "";
  return words ? make("p", { class: "notice", "data-kind": "info" }, words) : null;
}

/**
 * @param {HTMLElement} root
 * @param {VisitSession} session
 * @param {Person} person
 * @param {string | ((challenge: string) => Promise<Assertion>)} confirmation
 */
async function signWhatIsShown(root, session, person, confirmation) {
  const payload = await buildRecord(session.visit.id, person, MEANING);
  if (payload.events.some((event) => !session.events.has(event.id))) {
    await session.reload();
    throw Object.assign(new Error(phrase("An entry was added in the meantime. Review the record and sign again.")), { code: "changed_meanwhile" });
  }
  await signRecord(payload, confirmation);
  await session.reload();
  part(root, "after").scrollIntoView();
}

/** @param {HTMLInputElement} input @param {HTMLElement} place @param {string} text */
function tell(input, place, text) {
  say(place, text);
  if (text) input.setAttribute("aria-invalid", "true");
  else input.removeAttribute("aria-invalid");
}

/**
 * @param {HTMLElement} root
 * @param {VisitSession} session
 * @param {Person} person
 * @param {((challenge: string) => Promise<Assertion>) | null} passkey null: the password confirms
 */
async function sign(root, session, person, passkey) {
  const [input, error] = [/** @type {HTMLInputElement} */ (root.querySelector("#password")), part(root, "password-error")];
  const buttons = /** @type {NodeListOf<HTMLButtonElement>} */ (part(root, "signature").querySelectorAll("button"));
  tell(input, error, passkey || input.value ? "" : phrase("Enter your password to sign."));
  if (!passkey && !input.value) return input.focus();
  for (const button of buttons) button.disabled = true;
  say(part(root, "sign"), phrase("Signing ..."));
  try {
    await signWhatIsShown(root, session, person, passkey ?? input.value);
    input.value = "";
  } catch (problem) {
    const { code, message } = /** @type {any} */ (problem);
    tell(input, error, message);
    if (code !== "wrong_password") part(root, "after").replaceChildren(failure(problem));
    input.focus();
  } finally {
    for (const button of buttons) button.disabled = false;
    say(part(root, "sign"), phrase("Sign this record"));
  }
}

/**
 * Beside the password, where this phone knows of passkeys: the authenticator answers without signal.
 * @param {HTMLElement} root
 * @param {(passkey: (challenge: string) => Promise<Assertion>) => void} onpress
 */
async function offerPasskey(root, onpress) {
  const usable = await usablePasskeys();
  if (usable === null) return;
  const press = () => onpress((challenge) => confirmWithPasskey(challenge, usable.rpId, usable.ids));
  part(root, "sign").after(make("button", { type: "button", class: "button quiet", onclick: press }, phrase("Sign with a passkey instead")));
}

/**
 * The signature: who, what it means, when, and the password; afterwards what became of it.
 * @param {HTMLElement} root
 * @param {VisitSession} session
 */
export async function mountSignature(root, session) {
  const { person } = await preparedFor();
  const form = part(root, "signature");
  if (person === null) form.dataset.unprepared = "yes";
  else showWhoAndWhen(root, session, person);
  form.addEventListener("submit", () => person && sign(root, session, person, null));
  if (person !== null) await offerPasskey(root, (passkey) => sign(root, session, person, passkey));
  const after = part(root, "after");
  const paint = async () => {
    const parts = [mayBeSigned(root, session), await afterwards(session), person === null && session.open ? unprepared() : null];
    after.replaceChildren(.../** @type {Node[]} */ (parts.filter(Boolean)));
  };
  session.watch(paint);
  // What the server has received changes nothing that is judged, so the session does not paint again for it.
  subscribe(session.visit.id, () => session.open || paint());
}

function unprepared() {
  const text = phrase("This phone is not prepared for signing. Open Prepare this phone while there is signal; the entries stay.");
  return make("div", { class: "notice", "data-kind": "warning" }, make("p", {}, text), make("a", { href: "/phone" }, phrase("Prepare this phone")));
}
