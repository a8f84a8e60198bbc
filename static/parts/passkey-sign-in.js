import { confirmWithPasskey, whyNoPasskeys } from "../signing/passkey.js";
import { make, part } from "./element.js";
import { ask } from "./passkey-request.js";

/** @param {string} next where the person wanted to go */
async function signIn(next) {
  const { challenge, rp_id } = await ask("/api/sign-in/options", {});
  const assertion = await confirmWithPasskey(challenge, rp_id, []);
  const answer = await ask(`/api/sign-in?next=${encodeURIComponent(next)}`, assertion);
  location.assign(answer.next);
}

/**
 * Offers the passkey beside the password, where the browser has passkeys.
 * @param {HTMLElement} place
 */
export default function passkeySignIn(place) {
  const button = part(place, "passkey");
  const result = part(place, "result");
  const reason = whyNoPasskeys(place.dataset.rpId ?? "");
  if (reason !== null) return result.replaceChildren(make("p", { class: "muted" }, reason));
  button.hidden = false;
  button.addEventListener("click", async () => {
    button.disabled = true;
    result.replaceChildren();
    try {
      await signIn(place.dataset.next ?? "");
    } catch (error) {
      const { code, message } = /** @type {any} */ (error);
      result.replaceChildren(make("p", { class: "notice", "data-kind": "error" }, code ? `${message} (${code})` : message));
      button.disabled = false;
    }
  });
}
