import { phrase } from "../language/phrase.js";
import { KeyError, preparedFor, signCompact } from "../signing/device-key.js";
import { canonicalHash } from "../signing/jws.js";
import { challengeOf, confirmWithPasskey, usablePasskeys } from "../signing/passkey.js";
import { make } from "./element.js";

/** @param {HTMLFormElement} form @param {string} name @returns {string} */
function valueOf(form, name) {
  const value = new FormData(form).get(name);
  return typeof value === "string" ? value.trim() : "";
}

/** @param {HTMLFormElement} form @returns {HTMLInputElement | null} */
function chosen(form) {
  return form.querySelector('input[name="decision"]:checked');
}

/**
 * The decision's payload (docs/api.md). Its meaning stands beside the choice, where the person reads it.
 * @param {HTMLFormElement} form
 * @param {string} device thumbprint
 */
function payloadOf(form, device) {
  const now = new Date();
  const choice = chosen(form);
  return {
    type: "firstwater-decision",
    schema: 1,
    record: form.dataset.record,
    decision: choice?.value ?? "",
    reasons: valueOf(form, "reasons"),
    signer: { id: form.dataset.personId, name: form.dataset.personName, role: form.dataset.personRole },
    meaning: JSON.parse(form.dataset.meanings ?? "{}")[choice?.value ?? ""],
    signed_at: now.toISOString(),
    offset: -now.getTimezoneOffset(),
    device,
  };
}

/**
 * The signed decision; with a passkey also its confirmation of just this content.
 * @param {HTMLFormElement} form
 * @param {((challenge: string) => Promise<Assertion>) | null} passkey null: the password is sent instead
 */
async function sign(form, passkey) {
  const { person, device } = await preparedFor();
  if (person !== null && person.id !== form.dataset.personId) {
    const sentence = phrase("This browser is prepared for somebody else. Open Prepare this phone, or sign in as that person.");
    throw new KeyError("other_person", sentence);
  }
  const payload = payloadOf(form, device?.thumbprint ?? "");
  const assertion = passkey ? JSON.stringify(await passkey(challengeOf(await canonicalHash(payload)))) : "";
  return { jws: await signCompact(payload, "firstwater-decision+jws"), assertion };
}

/** @param {HTMLFormElement} form @param {string} name @param {string} value */
function setHidden(form, name, value) {
  /** @type {HTMLInputElement} */ (form.elements.namedItem(name)).value = value;
}

/** @param {HTMLElement} place @param {{code?: string, message: string}} error */
function show(place, error) {
  place.textContent = `${error.message} (${error.code ?? "not_signed"})`;
  place.hidden = false;
  place.focus();
}

/**
 * Sign a supervisor's decision in the browser, then send the form. Nothing is sent unsigned: what is incomplete goes
 * to the server without a signature only to be told what is missing.
 * @param {HTMLFormElement} form
 */
export default function decide(form) {
  const place = /** @type {HTMLElement} */ (form.querySelector("[data-part=problem]"));
  const button = /** @type {HTMLButtonElement} */ (form.querySelector("[data-part=send]"));
  let signing = false;
  button.disabled = false; // until now a press would have sent the form unsigned
  /** @param {((challenge: string) => Promise<Assertion>) | null} passkey */
  const send = async (passkey) => {
    if (signing) return;
    signing = true;
    place.hidden = true;
    try {
      const { jws, assertion } = chosen(form) ? await sign(form, passkey) : { jws: "", assertion: "" };
      setHidden(form, "jws", jws);
      setHidden(form, "assertion", assertion);
      form.submit();
    } catch (error) {
      show(place, /** @type {Error} */ (error));
    } finally {
      signing = false;
    }
  };
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    send(null);
  });
  offerPasskey(form, button, send).catch((error) => show(place, error));
  preparedFor().then(
    ({ person }) => {
      const advice = /** @type {HTMLElement} */ (form.querySelector("[data-part=not-prepared]"));
      advice.hidden = person?.id === form.dataset.personId;
    },
    (error) => show(place, error),
  );
}

/**
 * Beside the password, where this browser is prepared for the person and knows their passkeys.
 * @param {HTMLFormElement} form
 * @param {HTMLElement} button
 * @param {(passkey: (challenge: string) => Promise<Assertion>) => void} send
 */
async function offerPasskey(form, button, send) {
  const [{ person }, usable] = [await preparedFor(), await usablePasskeys()];
  if (usable === null || person?.id !== form.dataset.personId) return;
  const press = () => send((challenge) => confirmWithPasskey(challenge, usable.rpId, usable.ids));
  button.after(make("button", { type: "button", class: "button quiet", onclick: press }, phrase("Sign with a passkey instead")));
}
