import { BUILD } from "/build.js";
import { judge } from "../judging/engine.js";
import { FORMULAS_HASH } from "../generated/formulas.js";
import { fold } from "../judging/fold.js";
import { phrase } from "../language/phrase.js";
import { announce } from "../record/changes.js";
import { readSetting, transact } from "../record/database.js";
import { eventsOf, instrumentsUsed } from "../record/events.js";
import { visitOf } from "../record/visits.js";
import { baselineOf, instruments, procedureOf, siteOf, unitOf } from "../record/work.js";
import { checkPassword, deviceKey, preparedFor } from "./device-key.js";
import { canonicalHash, signWith } from "./jws.js";
import { challengeOf } from "./passkey.js";

/** The record could not be signed. `code` is incomplete, wrong_password, changed_meanwhile or already_signed. */
export class SigningError extends Error {
  /** @param {string} code @param {string} sentence */
  constructor(code, sentence) {
    super(sentence);
    this.name = "SigningError";
    this.code = code;
  }
}

/**
 * @param {Visit} visit
 * @param {EntryEvent[]} events
 */
async function contents(visit, events) {
  const [unit, procedure, all] = await Promise.all([unitOf(visit.unit), procedureOf(visit.procedure), instruments()]);
  const site = await siteOf(unit.site);
  const used = instrumentsUsed(events, all);
  const baseline = baselineOf(unit, procedure);
  const judgement = judge(procedure, {
    plate: unit.plate,
    site: site.values,
    baseline: baseline.values,
    instruments: used,
    ...fold(procedure, events),
  });
  return {
    unit: { id: unit.id, name: unit.name, serial: unit.serial, plate: unit.plate, baseline },
    site: { id: site.id, name: site.name, values: site.values },
    procedure: visit.procedure,
    formulas: FORMULAS_HASH,
    instruments: used,
    events,
    judgement,
    previous: unit.previous ?? null,
  };
}

/**
 * The payload of the record (docs/api.md) as it stands on this phone now; nothing is stored.
 * @param {string} visit
 * @param {Person} person who signs
 * @param {string} meaning the sentence that the signature stands for
 * @returns {Promise<CommissioningRecord>}
 */
export async function buildRecord(visit, person, meaning) {
  const [known, events, { device }, clockOffset] = await Promise.all([
    visitOf(visit),
    eventsOf(visit),
    preparedFor(),
    readSetting("clockOffset"),
  ]);
  const now = new Date();
  return {
    type: "firstwater-record",
    schema: 1,
    visit,
    kind: known.kind,
    ...(await contents(known, events)),
    corrects: known.state === "returned" ? known.record : null,
    signer: { id: person.id, name: person.name, role: person.role },
    meaning,
    signed_at: now.toISOString(),
    offset: -now.getTimezoneOffset(),
    clock_offset: clockOffset === undefined ? null : Math.round(clockOffset),
    device: device?.thumbprint ?? "",
    app: BUILD,
  };
}

/**
 * Store the record and close the visit, if its events are still those that were signed.
 * @param {StoredRecord} record
 * @param {EntryEvent[]} events
 */
async function storeSigned(record, events) {
  await transact(["records", "visits", "events", "settings"], "readwrite", async (transaction) => {
    const visit = await transaction.objectStore("visits").get(record.visit);
    if (visit.state !== "draft" && visit.state !== "returned") {
      throw new SigningError("already_signed", phrase("This record was signed in the meantime. Go back to see it."));
    }
    const keys = await transaction.objectStore("events").index("visit").getAllKeys(record.visit);
    const signed = new Set(events.map((event) => event.id));
    if (keys.length !== signed.size || !keys.every((/** @type {string} */ key) => signed.has(key))) {
      throw new SigningError("changed_meanwhile", phrase("An entry was added while you signed. Review the record and sign again."));
    }
    await Promise.all([
      transaction.objectStore("records").put(record),
      transaction.objectStore("visits").put({ ...visit, state: "signed", record: record.sha256 }),
      transaction.objectStore("settings").put(record.signed_at, "savedAt"),
    ]);
  });
}

/**
 * The passkey's confirmation of exactly this document, or null when the password was right.
 * @param {string} sha256
 * @param {string | ((challenge: string) => Promise<Assertion>)} confirmation
 */
async function confirmed(sha256, confirmation) {
  if (typeof confirmation !== "string") return confirmation(challengeOf(sha256));
  if (await checkPassword(confirmation)) return null;
  throw new SigningError("wrong_password", phrase("That is not the password with which this phone was prepared. Enter it again."));
}

/**
 * Sign a payload that `buildRecord` made and the person has just reviewed.
 *
 * When the promise resolves, the signed record is durable, waits to be sent, and the visit is closed: all in one
 * transaction. When it rejects nothing is stored and the visit stays open. Rejects with `SigningError`, `KeyError`,
 * `PasskeyError` or `StorageError`.
 * @param {CommissioningRecord} payload
 * @param {string | ((challenge: string) => Promise<Assertion>)} confirmation the password, or what asks a passkey
 * @returns {Promise<StoredRecord>}
 */
export async function signRecord(payload, confirmation) {
  if (payload.judgement.record.state !== "complete") {
    throw new SigningError("incomplete", phrase("Steps are still open. Finish them, then review the record and sign."));
  }
  // Hash and signature come first: waiting for them inside the transaction would end it.
  const sha256 = await canonicalHash(payload);
  const assertion = await confirmed(sha256, confirmation);
  const jws = await signWith(payload, "firstwater-record+jws", await deviceKey());
  /** @type {StoredRecord} */
  const record = {
    sha256,
    visit: payload.visit,
    by: payload.signer.id,
    jws,
    ...(assertion && { assertion }),
    signed_at: payload.signed_at,
    sent: "waiting",
    problem: null,
    answer: null,
  };
  await storeSigned(record, payload.events);
  announce(payload.visit);
  return record;
}
