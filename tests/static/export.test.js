import { unsentContents, unsentFile } from "/static/record/export.js";
import { addEvent } from "/static/record/events.js";
import { listBySent, markProblem, markReceived, retryProblems, summary } from "/static/record/outbox.js";
import { addPhoto, photoOf } from "/static/record/photos.js";
import { createVisit } from "/static/record/visits.js";
import { sha256 } from "/static/record/hash.js";
import { canonicalHash } from "/static/signing/jws.js";
import { PERSON, PROCEDURE_NAME, person } from "./prepared.js";
import { equal, ok, test } from "./suite.js";

/** @type {any} */
let made;

test("everything that the server has not received is in the file, and nothing else", async () => {
  await person();
  const visit = await createVisit({ unit: "u-1", kind: "commissioning", procedure: PROCEDURE_NAME });
  const texts = ["waits", "refused", "received"];
  const events = [];
  for (const value of texts) events.push(await addEvent({ visit: visit.id, field: "a.b", content: { value } }));
  const canvas = new OffscreenCanvas(700, 500);
  /** @type {any} */ (canvas.getContext("2d")).fillRect(0, 0, 9, 9);
  const photo = await addPhoto(await canvas.convertToBlob(), visit.id);
  await markProblem("events", events[1].id, { code: "late", detail: "Too late." });
  await markReceived("events", events[2].id);
  made = { visit, events, photo };

  const contents = await unsentContents();
  equal(contents.visits.map((one) => one.id), [visit.id]);
  equal(contents.events, [
    { event: events[0], problem: null },
    { event: events[1], problem: { code: "late", detail: "Too late." } },
  ]);
  equal(contents.photos.map((one) => one.sha256), [photo.sha256]);
  equal([contents.person, contents.app, contents.records], [PERSON, "tests", []]);
});

test("the photo in the file is the stored one, byte for byte", async () => {
  const [{ base64 }] = (await unsentContents()).photos;
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  equal(await sha256(bytes), made.photo.sha256);
  equal(bytes.length, /** @type {Blob} */ (await photoOf(made.photo.sha256)).size);
});

test("the file carries a checksum over the rest of it, also on a phone without a key", async () => {
  const { sha256: sum, seal, ...rest } = JSON.parse(await (await unsentFile()).text());
  equal([sum, seal], [await canonicalHash(rest), null]);
  ok((await unsentFile()).name.endsWith(".json"));
});

test("the export removes nothing from the phone", async () => {
  const before = await summary();
  await unsentFile();
  equal(await summary(), before);
});

test("what the server refused counts as only here, is shown as a problem, and can be sent again", async () => {
  equal([(await summary()).events, (await summary()).problems], [2, 1]);
  await retryProblems();
  equal([(await summary()).events, (await summary()).problems], [2, 0]);
  equal((await listBySent("events", "problem")).length, 0);
});
