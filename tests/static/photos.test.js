import { addPhoto, NotAPicture, photoOf, removeAcceptedPhotos } from "/static/record/photos.js";
import { transact } from "/static/record/database.js";
import { sha256 } from "/static/record/hash.js";
import { listBySent, markReceived, summary } from "/static/record/outbox.js";
import { person } from "./prepared.js";
import { equal, ok, rejects, test } from "./suite.js";

const VISIT = "11111111-1111-4111-8111-111111111111";
const VISIT_SHAPE = { unit: "u-1", kind: "commissioning", started_at: "", started_by: "p-1", record: "aa", problem: null };

/** A JPEG of the given size with a marker segment as cameras write it. @param {number} width @param {number} height */
async function picture(width, height, note = "Exif\0\0GPS 48.1 11.5") {
  const canvas = new OffscreenCanvas(width, height);
  const context = /** @type {OffscreenCanvasRenderingContext2D} */ (canvas.getContext("2d"));
  context.fillStyle = "teal";
  context.fillRect(0, 0, width / 2, height);
  const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: "image/jpeg" })).arrayBuffer());
  const text = new TextEncoder().encode(note);
  const segment = new Uint8Array([0xff, 0xfe, 0, text.length + 2, ...text]); // a comment segment, ITU-T T.81, B.2.4.5
  return new Blob([bytes.subarray(0, 2), segment, bytes.subarray(2)], { type: "image/jpeg" });
}

/** @param {Blob} blob */
const asText = async (blob) => new TextDecoder("latin1").decode(await blob.arrayBuffer());

test("a large photo becomes a JPEG of 1600 pixels without what the camera wrote into it", async () => {
  await person();
  const camera = await picture(4000, 3000);
  ok((await asText(camera)).includes("GPS"));
  const content = await addPhoto(camera, VISIT);
  const kept = /** @type {Blob} */ (await photoOf(content.sha256));
  const { width, height } = await createImageBitmap(kept);
  equal([width, height, kept.type, kept.size === content.size], [1600, 1200, "image/jpeg", true]);
  ok(!(await asText(kept)).includes("GPS"), "free of the camera's notes");
  equal(await sha256(await kept.arrayBuffer()), content.sha256);
});

test("a small photo is not enlarged", async () => {
  const { sha256: hash } = await addPhoto(await picture(320, 200), VISIT);
  const { width } = await createImageBitmap(/** @type {Blob} */ (await photoOf(hash)));
  equal(width, 320);
});

test("a photo that does not fit is kept smaller before it is refused", async () => {
  const put = IDBObjectStore.prototype.put;
  // What a nearly full browser does, which its quota cannot be made to do at a chosen size.
  IDBObjectStore.prototype.put = function (value, ...rest) {
    if (value.bytes?.byteLength > 8000) throw new DOMException("", "QuotaExceededError");
    return put.call(this, value, ...rest);
  };
  try {
    const { sha256: hash } = await addPhoto(await picture(2000, 1000), VISIT);
    const { width } = await createImageBitmap(/** @type {Blob} */ (await photoOf(hash)));
    equal(width, 1000);
  } finally {
    IDBObjectStore.prototype.put = put;
  }
});

test("the same picture is kept once and does not become unsent again", async () => {
  const { sha256: hash } = await addPhoto(await picture(100, 100), VISIT);
  await markReceived("photos", hash);
  const before = (await summary()).photos;
  equal((await addPhoto(await picture(100, 100), VISIT)).sha256, hash);
  equal((await summary()).photos, before);
});

test("bytes are stored, not a Blob, which private windows cannot keep", async () => {
  const [photo] = await listBySent("photos", "waiting");
  ok(photo.bytes instanceof ArrayBuffer);
});

test("only photos that the server has, of an accepted record, make room", async () => {
  const visits = ["accepted", "signed"].map((state) => ({ ...VISIT_SHAPE, id: state, state, sent: "received" }));
  await transact(["visits"], "readwrite", (transaction) =>
    Promise.all(visits.map((visit) => transaction.objectStore("visits").put(visit))),
  );
  const hashes = [];
  for (const [index, visit] of ["accepted", "accepted", "signed"].entries()) {
    hashes.push((await addPhoto(await picture(50 + index, 50), visit)).sha256);
  }
  await markReceived("photos", hashes[0]);
  await markReceived("photos", hashes[2]);
  await removeAcceptedPhotos();
  const kept = await Promise.all(hashes.map((hash) => photoOf(hash)));
  equal(kept.map((photo) => photo !== null), [false, true, true]);
});

test("what is no picture is refused with what to do", async () => {
  await rejects(() => addPhoto(new Blob(["text"]), VISIT), NotAPicture, "not_a_picture", /Take the photo again/);
});

test("a photo of another phone is not here", async () => {
  equal(await photoOf("00".repeat(32)), null);
});
