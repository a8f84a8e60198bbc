// Compact JWS with ES256 (RFC 7515, RFC 7518 3.4) over the canonical JSON of RFC 8785.

import { sha256 } from "../record/hash.js";
import canonicalize from "../vendor/canonicalize/canonicalize.js";

/** ECDSA on P-256, whose raw r || s is what JOSE calls ES256. */
export const ALGORITHM = { name: "ECDSA", namedCurve: "P-256", hash: "SHA-256" };

/** @param {Uint8Array<ArrayBuffer>} bytes */
export function base64url(bytes) {
  const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  return btoa(text).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/**
 * The bytes that are hashed and signed for `value` (RFC 8785).
 * Throws for what JSON cannot hold: NaN, infinities, lone surrogates.
 * @param {unknown} value
 * @returns {Uint8Array<ArrayBuffer>}
 */
export function canonicalBytes(value) {
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError("There is no JSON for this value.");
  return new TextEncoder().encode(text);
}

/**
 * The identity of a record or an event: lower-case hex SHA-256 of its canonical bytes.
 * @param {unknown} value
 */
export async function canonicalHash(value) {
  return sha256(canonicalBytes(value));
}

/**
 * The key's name (RFC 7638): SHA-256 over its required members in order.
 * @param {JsonWebKey} jwk a public EC key
 */
export async function thumbprint({ crv, kty, x, y }) {
  return base64url(new Uint8Array(await crypto.subtle.digest("SHA-256", canonicalBytes({ crv, kty, x, y }))));
}

/**
 * @param {unknown} payload
 * @param {string} typ for example `firstwater-record+jws`
 * @param {{privateKey: CryptoKey, thumbprint: string}} key
 * @returns {Promise<string>}
 */
export async function signWith(payload, typ, key) {
  const header = canonicalBytes({ alg: "ES256", kid: key.thumbprint, typ });
  const input = `${base64url(header)}.${base64url(canonicalBytes(payload))}`;
  const signature = await crypto.subtle.sign(ALGORITHM, key.privateKey, new TextEncoder().encode(input));
  return `${input}.${base64url(new Uint8Array(signature))}`;
}
