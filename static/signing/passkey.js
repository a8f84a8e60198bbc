// Passkeys (W3C Web Authentication): a key in the person's authenticator that confirms one challenge at a time.

import { phrase } from "../language/phrase.js";
import { transact, writeSettings } from "../record/database.js";
import { base64url } from "./jws.js";

const TIME_LIMIT = 120_000;

/**
 * The passkey was not used. `code` is passkey_cancelled, passkey_known or passkey_failed; the sentence says what to do.
 */
export class PasskeyError extends Error {
  /** @param {string} code @param {string} sentence @param {unknown} [cause] */
  constructor(code, sentence, cause) {
    super(sentence, { cause });
    this.name = "PasskeyError";
    this.code = code;
  }
}

/** @param {string} text base64url @returns {Uint8Array<ArrayBuffer>} */
export function bytesOf(text) {
  const binary = atob(text.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(binary, (character) => character.charCodeAt(0));
}

/** @param {ArrayBuffer} buffer */
const textOf = (buffer) => base64url(new Uint8Array(buffer));

/**
 * Why this page cannot use passkeys, as a sentence, or null. They belong to the server's host name: under another
 * name of the same server the browser refuses them.
 * @param {string} rpId
 * @returns {string | null}
 */
export function whyNoPasskeys(rpId) {
  if (!isSecureContext || !("PublicKeyCredential" in window)) {
    return phrase("This browser offers no passkeys here. The password works as before.");
  }
  if (location.hostname !== rpId && !location.hostname.endsWith(`.${rpId}`)) {
    return phrase("Passkeys work only under the address {rp_id}. Open the app there; the password works here as well.", { rp_id: rpId });
  }
  return null;
}

/** @param {any} error a DOMException of the browser */
function asPasskeyError(error) {
  if (error?.name === "InvalidStateError") {
    return new PasskeyError("passkey_known", phrase("This device has a passkey for this account already."), error);
  }
  if (error?.name === "NotAllowedError" || error?.name === "AbortError") {
    const sentence = phrase("The passkey was not used: it was cancelled, took too long, or is not on this device. Try again, or use your password.");
    return new PasskeyError("passkey_cancelled", sentence, error);
  }
  return new PasskeyError("passkey_failed", phrase("This browser could not use the passkey. Use your password."), error);
}

/**
 * @template T
 * @param {() => Promise<Credential | null>} request
 * @param {(credential: any) => T} read
 * @returns {Promise<T>}
 */
async function asked(request, read) {
  try {
    return read(await request());
  } catch (error) {
    throw asPasskeyError(error);
  }
}

/**
 * Let the authenticator make a passkey. Rejects with `PasskeyError`.
 * @param {any} options the server's, bytes in base64url
 * @returns {Promise<NewCredential>}
 */
export function makePasskey(options) {
  const publicKey = {
    ...options,
    challenge: bytesOf(options.challenge),
    user: { ...options.user, id: bytesOf(options.user.id) },
    excludeCredentials: options.excludeCredentials.map((/** @type {any} */ one) => ({ ...one, id: bytesOf(one.id) })),
  };
  return asked(
    () => navigator.credentials.create({ publicKey }),
    ({ id, response }) => ({
      id,
      clientDataJSON: textOf(response.clientDataJSON),
      attestationObject: textOf(response.attestationObject),
    }),
  );
}

/**
 * Let the authenticator confirm a challenge, after it has looked at the finger, the face or the code. Needs no signal.
 * Rejects with `PasskeyError`.
 * @param {string} challenge base64url
 * @param {string} rpId
 * @param {string[]} ids of passkeys that may be used; empty: the person chooses one
 * @returns {Promise<Assertion>}
 */
export function confirmWithPasskey(challenge, rpId, ids) {
  const allowCredentials = ids.map((id) => ({ type: /** @type {const} */ ("public-key"), id: bytesOf(id) }));
  /** @type {PublicKeyCredentialRequestOptions} */
  const publicKey = { challenge: bytesOf(challenge), rpId, allowCredentials, userVerification: "required", timeout: TIME_LIMIT };
  return asked(
    () => navigator.credentials.get({ publicKey }),
    ({ id, response }) => ({
      id,
      clientDataJSON: textOf(response.clientDataJSON),
      authenticatorData: textOf(response.authenticatorData),
      signature: textOf(response.signature),
      userHandle: response.userHandle ? textOf(response.userHandle) : null,
    }),
  );
}

/** The challenge that stands for a document: its hash. @param {string} sha256 in hex */
export function challengeOf(sha256) {
  return base64url(Uint8Array.from(sha256.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16)));
}

/**
 * Keep on this phone which passkeys its person has, if the phone is theirs, so that they work without signal.
 * @param {string} person
 * @param {KnownPasskeys} passkeys
 */
export async function keepPasskeys(person, passkeys) {
  const owner = await transact(["settings"], "readonly", (transaction) => transaction.objectStore("settings").get("person"));
  if (owner?.id === person) await writeSettings({ passkeys });
}

/**
 * The passkeys with which the phone's person can confirm here, or null.
 * @returns {Promise<{rpId: string, ids: string[]} | null>}
 */
export async function usablePasskeys() {
  /** @type {KnownPasskeys | undefined} */
  const known = await transact(["settings"], "readonly", (transaction) => transaction.objectStore("settings").get("passkeys"));
  if (!known?.passkeys.length || whyNoPasskeys(known.rp_id) !== null) return null;
  return { rpId: known.rp_id, ids: known.passkeys.map((one) => one.id) };
}
