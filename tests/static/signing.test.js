import { transact, writeSettings } from "/static/record/database.js";
import { checkPassword, deviceKey, KeyError, makeVerifier, signCompact } from "/static/signing/device-key.js";
import { base64url, canonicalBytes, canonicalHash, thumbprint } from "/static/signing/jws.js";
import { PASSWORD, signer } from "./prepared.js";
import { equal, ok, rejects, test } from "./suite.js";

/** @param {Uint8Array} bytes */
const hex = (bytes) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");

test("the sample of RFC 8785, 3.2.2 has the bytes that the RFC prints", () => {
  const sample = JSON.parse(
    '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],' +
      '"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
  );
  equal(
    hex(canonicalBytes(sample)),
    "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b333333333333333333" +
      "2e333333333333332c31652b33302c342e352c302e3030322c31652d32375d2c22737472696e67223a22e282ac245c753030" +
      "30665c6e4127425c225c5c5c5c5c222f227d",
  );
});

test("the names of RFC 8785, 3.2.3 are sorted by UTF-16 code units", () => {
  const names = ["\u20ac", "\r", "\ufb33", "1", "\ud83d\ude00", "\u0080", "\u00f6"];
  const text = new TextDecoder().decode(canonicalBytes(Object.fromEntries(names.map((name) => [name, ""]))));
  equal(
    [...text.matchAll(/"((?:[^"\\]|\\.)*)":/g)].map((match) => JSON.parse(`"${match[1]}"`)),
    ["\r", "1", "\u0080", "\u00f6", "\u20ac", "\ud83d\ude00", "\ufb33"],
  );
});

test("what JSON cannot hold is refused", () => {
  for (const value of [NaN, Infinity, "\ud800", undefined]) {
    let refused = false;
    try {
      canonicalBytes(value);
    } catch {
      refused = true;
    }
    ok(refused, `refused: ${String(value)}`);
  }
});

test("the hash is that of the canonical bytes", async () => {
  // SHA-256 of the three bytes "abc" is in FIPS 180-4's examples; of `{}` it was taken from sha256sum.
  equal(await canonicalHash({}), "44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a");
});

test("the thumbprint of the key in RFC 7517, A.1 is the published one", async () => {
  const key = {
    kty: "EC",
    crv: "P-256",
    x: "MKBCTNIcKUSDii11ySs3526iDZ8AiTo7Tu6KPAqv7D4",
    y: "4Etl6SRW2YiLUrN5vfvVHuhp7x8PxltmWWlbbM4IFyM",
    use: "enc",
    kid: "1",
  };
  // The value stands in the tests of the Python library jwcrypto.
  equal(await thumbprint(key), "cn-I_WNMClehiVp51i_0VpOENW1upEerA8sEam5hn-s");
});

test("base64url has no padding and no plus or slash (RFC 7515, appendix C)", () => {
  equal(base64url(new Uint8Array([3, 236, 255, 224, 193])), "A-z_4ME");
});

test("without preparation there is no key and no password to check", async () => {
  await rejects(() => deviceKey(), KeyError, "not_prepared", /Prepare this phone/);
  await rejects(() => checkPassword("x"), KeyError, "not_prepared", /Prepare this phone/);
});

test("the private key cannot be taken out and signs after it was read back", async () => {
  const made = await signer();
  const { privateKey, thumbprint: id } = await deviceKey();
  equal([privateKey.extractable, id, Object.keys(made.jwk).sort()], [false, made.thumbprint, ["crv", "kty", "x", "y"]]);
  const refused = await crypto.subtle.exportKey("jwk", privateKey).catch((error) => error.name);
  equal(refused, "InvalidAccessError");
  equal((await signCompact({ a: 1 }, "test+jws")).split(".").length, 3);
});

test("only the right password is accepted, without signal", async () => {
  equal([await checkPassword(PASSWORD), await checkPassword(`${PASSWORD} `), await checkPassword("")], [true, false, false]);
});

test("a password with accents is the same however the keyboard writes it", async () => {
  await writeSettings({ verifier: await makeVerifier("caf\u00e9 au lait") });
  ok(await checkPassword("cafe\u0301 au lait"));
});

test("a key that the browser has removed is told as such", async () => {
  await transact(["keys"], "readwrite", (transaction) => transaction.objectStore("keys").clear());
  await rejects(() => deviceKey(), KeyError, "key_lost", /entries are kept: open Prepare this phone/);
});
