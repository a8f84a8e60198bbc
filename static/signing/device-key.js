import { phrase } from "../language/phrase.js";
import { transact } from "../record/database.js";
import { ALGORITHM, signWith, thumbprint } from "./jws.js";

const ITERATIONS = 600_000;

/** This phone cannot sign. `code` is key_not_kept, key_lost or not_prepared; the sentence says what to do. */
export class KeyError extends Error {
  /** @param {string} code @param {string} sentence @param {unknown} [cause] */
  constructor(code, sentence, cause) {
    super(sentence, { cause });
    this.name = "KeyError";
    this.code = code;
  }
}

/** @typedef {{privateKey: CryptoKey, jwk: JsonWebKey, thumbprint: string}} DeviceKey */

/** @param {CryptoKey} privateKey @param {JsonWebKey} jwk */
async function signsAndVerifies(privateKey, jwk) {
  const challenge = crypto.getRandomValues(new Uint8Array(32));
  const publicKey = await crypto.subtle.importKey("jwk", jwk, ALGORITHM, true, ["verify"]);
  const signature = await crypto.subtle.sign(ALGORITHM, privateKey, challenge);
  return crypto.subtle.verify(ALGORITHM, publicKey, signature, challenge);
}

/** @param {string} id @returns {Promise<CryptoKey | undefined>} */
function storedKey(id) {
  return transact(["keys"], "readonly", (transaction) => transaction.objectStore("keys").get(id));
}

/**
 * Make a key whose private half never leaves this browser, store it, read it back and try it.
 *
 * When the promise resolves the key is durable and has signed. Some browsers refuse to store a key, and some have
 * reported success and returned nothing; either rejects with `KeyError` key_not_kept.
 * @returns {Promise<DeviceKey>}
 */
export async function makeKey() {
  const pair = await crypto.subtle.generateKey(ALGORITHM, false, ["sign", "verify"]);
  const { crv, kty, x, y } = await crypto.subtle.exportKey("jwk", pair.publicKey);
  const jwk = { crv, kty, x, y };
  const id = await thumbprint(jwk);
  try {
    await transact(["keys"], "readwrite", (transaction) => transaction.objectStore("keys").put(pair.privateKey, id));
    const privateKey = await storedKey(id);
    if (privateKey === undefined || !(await signsAndVerifies(privateKey, jwk))) throw new Error("not read back");
    return { privateKey, jwk, thumbprint: id };
  } catch (error) {
    const sentence = phrase("This browser does not keep a signing key. Leave private browsing, or use another browser or phone.");
    throw new KeyError("key_not_kept", sentence, error);
  }
}

/**
 * The proof for enrolment that this phone holds the key.
 * @param {DeviceKey} key
 * @param {Person} person
 */
export function proofOf(key, person) {
  const payload = { type: "firstwater-device", person: person.id, at: new Date().toISOString() };
  return signWith(payload, "firstwater-device+jws", key);
}

/**
 * @param {string} password
 * @param {BufferSource} salt
 * @param {number} iterations
 */
async function derive(password, salt, iterations) {
  const text = new TextEncoder().encode(password.normalize("NFC"));
  const key = await crypto.subtle.importKey("raw", text, "PBKDF2", false, ["deriveBits"]);
  return new Uint8Array(await crypto.subtle.deriveBits({ name: "PBKDF2", hash: "SHA-256", salt, iterations }, key, 256));
}

/**
 * What the phone keeps to ask for the password without signal. PBKDF2-SHA256 with 600 000 iterations
 * (OWASP, Password Storage Cheat Sheet).
 * @param {string} password
 * @returns {Promise<Verifier>}
 */
export async function makeVerifier(password) {
  const salt = crypto.getRandomValues(new Uint8Array(16));
  return { salt, iterations: ITERATIONS, bits: await derive(password, salt, ITERATIONS) };
}

/**
 * From now on this phone belongs to `person`. Durable when the promise resolves; all of it or nothing.
 * @param {{person: Person, device: Device, verifier: Verifier}} prepared
 */
export function keepPerson({ person, device, verifier }) {
  return transact(["settings"], "readwrite", async (transaction) => {
    const settings = transaction.objectStore("settings");
    await Promise.all([
      settings.put(person, "person"),
      settings.put(device, "device"),
      settings.put(verifier, "verifier"),
      settings.delete("passkeys"), // somebody else's, perhaps; the present ones are fetched afterwards
    ]);
  });
}

/** @returns {Promise<{person: Person | null, device: Device | null, verifier: Verifier | null}>} */
export function preparedFor() {
  return transact(["settings"], "readonly", async (transaction) => {
    const settings = transaction.objectStore("settings");
    const [person = null, device = null, verifier = null] = await Promise.all(
      ["person", "device", "verifier"].map((name) => settings.get(name)),
    );
    return { person, device, verifier };
  });
}

/**
 * Whether this is the password of the person for whom the phone was prepared; works without signal.
 * Rejects with `KeyError` not_prepared.
 * @param {string} password
 * @returns {Promise<boolean>}
 */
export async function checkPassword(password) {
  const { verifier } = await preparedFor();
  if (verifier === null) throw notPrepared();
  const bits = await derive(password, /** @type {BufferSource} */ (verifier.salt), verifier.iterations);
  return verifier.bits.every((byte, index) => byte === bits[index]);
}

function notPrepared() {
  return new KeyError("not_prepared", phrase("This phone is not prepared for signing. Open Prepare this phone while there is signal."));
}

/**
 * The key of this phone. Rejects with `KeyError`: not_prepared, or key_lost when the browser has removed it.
 * @returns {Promise<DeviceKey>}
 */
export async function deviceKey() {
  const { device } = await preparedFor();
  if (device === null) throw notPrepared();
  const privateKey = await storedKey(device.thumbprint);
  if (privateKey === undefined) {
    const sentence = phrase("This phone has lost its signing key. The entries are kept: open Prepare this phone, then sign.");
    throw new KeyError("key_lost", sentence);
  }
  return { privateKey, jwk: device.jwk, thumbprint: device.thumbprint };
}

/**
 * A compact JWS over the canonical JSON of `payload`, with this phone's key.
 * @param {unknown} payload
 * @param {string} typ
 * @returns {Promise<string>}
 */
export async function signCompact(payload, typ) {
  return signWith(payload, typ, await deviceKey());
}
