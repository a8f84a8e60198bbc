import { phrase } from "../language/phrase.js";
import { announce } from "./changes.js";
import { readSetting, StorageError, transact } from "./database.js";
import { sha256 } from "./hash.js";

const SIZES = [
  { longSide: 1600, quality: 0.8 },
  { longSide: 1000, quality: 0.6 },
];

/** The chosen file is not a picture that this phone can read. */
export class NotAPicture extends Error {
  constructor() {
    super(phrase("This file could not be read as a picture. Take the photo again."));
    this.name = "NotAPicture";
    this.code = "not_a_picture";
  }
}

/**
 * @param {Blob} file
 * @param {{longSide: number, quality: number}} size
 */
async function encode(file, { longSide, quality }) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => {
    throw new NotAPicture();
  });
  const scale = Math.min(1, longSide / Math.max(picture.width, picture.height));
  const [width, height] = [Math.round(picture.width * scale), Math.round(picture.height * scale)];
  const canvas = new OffscreenCanvas(width, height);
  const context = /** @type {OffscreenCanvasRenderingContext2D} */ (canvas.getContext("2d"));
  context.drawImage(picture, 0, 0, width, height);
  picture.close();
  // Drawing anew leaves out the position and everything else that the camera wrote into the file.
  const blob = await canvas.convertToBlob({ type: "image/jpeg", quality });
  return blob.arrayBuffer();
}

/**
 * @param {ArrayBuffer} bytes
 * @param {string} visit
 */
async function store(bytes, visit) {
  const [hash, person] = [await sha256(bytes), await readSetting("person")];
  /** @type {StoredPhoto} */
  const photo = {
    sha256: hash,
    visit,
    by: person?.id ?? "",
    type: "image/jpeg",
    size: bytes.byteLength,
    bytes,
    sent: "waiting",
    problem: null,
  };
  await transact(["photos"], "readwrite", async (transaction) => {
    const photos = transaction.objectStore("photos");
    // The same picture again must not become unsent again.
    if ((await photos.get(hash)) === undefined) await photos.put(photo);
  });
  announce(visit);
  return { sha256: hash, type: photo.type, size: photo.size };
}

/**
 * Keep a photo as a JPEG of at most 1600 pixels, without the camera's own data. On a full phone a smaller one is kept.
 *
 * When the promise resolves the picture is durable; the answer is the content of the event that names it.
 * Rejects with `NotAPicture` or `StorageError`.
 * @param {Blob} file
 * @param {string} visit
 * @returns {Promise<{sha256: string, type: string, size: number}>}
 */
export async function addPhoto(file, visit) {
  const [large, small] = SIZES;
  try {
    return await store(await encode(file, large), visit);
  } catch (error) {
    if (!(error instanceof StorageError) || error.code !== "storage_full") throw error;
  }
  return store(await encode(file, small), visit);
}

/**
 * Make room: photos that the server has, of visits whose record was accepted. Nothing else ever leaves the phone.
 */
export async function removeAcceptedPhotos() {
  await transact(["photos", "visits"], "readwrite", async (transaction) => {
    const photos = transaction.objectStore("photos");
    for (const visit of await transaction.objectStore("visits").getAll()) {
      if (visit.state !== "accepted" || visit.sent !== "received") continue;
      for (const photo of await photos.index("visit").getAll(visit.id)) {
        if (photo.sent === "received") await photos.delete(photo.sha256);
      }
    }
  });
}

/**
 * The JPEG, or null when it is not on this phone: taken with another one, or its record was accepted.
 * @param {string} hash
 * @returns {Promise<Blob | null>}
 */
export async function photoOf(hash) {
  const photo = await transact(["photos"], "readonly", (transaction) => transaction.objectStore("photos").get(hash));
  return photo ? new Blob([photo.bytes], { type: photo.type }) : null;
}
