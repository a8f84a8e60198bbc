// The way out when nothing can be sent: everything that the server has not received, as one file.

import { BUILD } from "/build.js";
import { signCompact } from "../signing/device-key.js";
import { canonicalHash } from "../signing/jws.js";
import { readSetting } from "./database.js";
import { sha256 } from "./hash.js";
import { unsent } from "./outbox.js";

/** @param {ArrayBuffer} buffer */
function base64(buffer) {
  const bytes = new Uint8Array(buffer);
  let text = "";
  // In slices: a photo has more bytes than a call may have arguments.
  for (let start = 0; start < bytes.length; start += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(start, start + 0x8000));
  }
  return btoa(text);
}

/** @param {any[]} values @returns {Promise<Record<string, string>>} the hash of each by its id */
async function hashes(values) {
  return Object.fromEntries(await Promise.all(values.map(async (one) => [one.id, await canonicalHash(one)])));
}

/**
 * The hash of every part, signed with this phone's key: somebody else can carry the file in, and a change on the way
 * can be named. Null when the phone has no key; the file is worth having without.
 * @param {any} contents
 * @param {string} whole the hash of the contents
 */
async function seal(contents, whole) {
  const { person, device, visits, events, photos, records, made_at } = contents;
  if (!person || !device) return null;
  const texts = records.map((/** @type {any} */ one) => new TextEncoder().encode(one.jws));
  const parts = {
    type: "firstwater-seal",
    schema: 1,
    sha256: whole,
    visits: await hashes(visits),
    events: await hashes(events.map((/** @type {any} */ one) => one.event)),
    photos: photos.map((/** @type {any} */ one) => one.sha256),
    records: await Promise.all(texts.map(sha256)),
    signer: { id: person.id, name: person.name, role: person.role },
    device,
    signed_at: made_at,
  };
  return signCompact(parts, "firstwater-seal+jws").catch((error) => {
    console.warn("seal", error);
    return null;
  });
}

/**
 * Everything that the server has not received, with `sha256` over the canonical JSON of the rest, and sealed. Nothing
 * is removed from the phone.
 */
export async function unsentContents() {
  const [{ visits, events, photos, records }, person, device] = await Promise.all([
    unsent(),
    readSetting("person"),
    readSetting("device"),
  ]);
  const contents = {
    type: "firstwater-unsent",
    schema: 1,
    made_at: new Date().toISOString(),
    app: BUILD,
    person: person ? { id: person.id, name: person.name, role: person.role } : null,
    device: device?.thumbprint ?? null,
    visits: visits.map(({ sent, last, ...visit }) => visit),
    events: events.map(({ event, problem }) => ({ event, problem })),
    records: records.map(({ jws, problem, assertion }) => ({ jws, problem, ...(assertion ? { assertion } : {}) })),
    photos: photos.map(({ sha256: name, visit, type, bytes }) => ({ sha256: name, visit, type, base64: base64(bytes) })),
  };
  const whole = await canonicalHash(contents);
  return { ...contents, sha256: whole, seal: await seal(contents, whole) };
}

/** @returns {Promise<File>} */
export async function unsentFile() {
  const contents = await unsentContents();
  const name = `firstwater-unsent-${contents.made_at.slice(0, 19).replaceAll(":", "-")}.json`;
  return new File([JSON.stringify(contents)], name, { type: "application/json" });
}

/** @param {File} file */
function download(file) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/**
 * Hand the file to the phone's share sheet, or download it where there is none.
 * @param {File} file
 * @returns {Promise<"shared" | "downloaded" | "cancelled">}
 */
export async function giveOut(file) {
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file], title: file.name });
      return "shared";
    } catch (error) {
      if (/** @type {Error} */ (error).name === "AbortError") return "cancelled";
    }
  }
  download(file);
  return "downloaded";
}
