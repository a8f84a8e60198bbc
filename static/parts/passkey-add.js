import { phrase } from "../language/phrase.js";
import { get, openSession } from "../sync/api.js";
import { keepPasskeys, makePasskey, whyNoPasskeys } from "../signing/passkey.js";
import { make, part, ready } from "./element.js";
import { ask } from "./passkey-request.js";

/** @param {HTMLElement} place @param {string} kind @param {string} text */
function show(place, kind, text) {
  place.replaceChildren(make("p", { class: "notice", "data-kind": kind }, text));
}

/** The phone knows without signal which passkeys there are: also after one was removed. */
async function keepOnThisPhone() {
  const { person } = await openSession();
  await keepPasskeys(person.id, await get("/api/passkeys"));
}

/** @param {FormData} form */
async function add(form) {
  const name = String(form.get("name")).trim();
  const password = String(form.get("password"));
  if (!name) throw new Error(phrase("Enter a name for the passkey."));
  if (!password) throw new Error(phrase("Enter your password."));
  const options = await ask("/api/passkeys/options", { password });
  await ask("/api/passkeys", { name, credential: await makePasskey(options) });
}

/**
 * Adds a passkey to the account: password, then the authenticator, then the server's word that it is kept.
 * @param {HTMLFormElement} form
 */
export default function passkeyAdd(form) {
  const result = part(form, "result");
  const reason = whyNoPasskeys(form.dataset.rpId ?? "");
  const button = /** @type {HTMLButtonElement} */ (form.querySelector("button"));
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    button.disabled = true;
    try {
      await add(new FormData(form));
      await keepOnThisPhone();
      location.reload();
    } catch (error) {
      const { code, message } = /** @type {any} */ (error);
      show(result, "error", code ? `${message} (${code})` : message);
      button.disabled = false;
    }
  });
  ready(form);
  if (reason !== null) {
    button.disabled = true;
    show(result, "info", reason);
  }
  keepOnThisPhone().catch((error) => console.warn("passkeys", error));
}
