// A large photo goes in parts, so that a weak signal loses one part and not the photo.

import { get, putPhoto } from "./api.js";

/** Larger photos go in parts of this many bytes; the server names its own size. */
export const PART = 256 * 1024;

/**
 * Send a photo. It is whole and has our hash on the server when the promise resolves with that hash.
 *
 * What is there already is not sent again: parts of an earlier attempt, before a reload or a lost signal.
 * @param {StoredPhoto} photo
 * @returns {Promise<string>}
 */
export async function sendPhoto({ sha256, bytes }) {
  if (bytes.byteLength <= PART) return (await putPhoto(`/api/photos/${sha256}`, bytes)).sha256;
  const path = `/api/photos/${sha256}/parts`;
  let progress = await get(path);
  const { part } = progress;
  for (const number of progress.missing ?? everyPart(bytes.byteLength, part)) {
    progress = await putPart(path, bytes, number, part);
  }
  // Another window or a restored server may have changed what is missing; the next run asks anew.
  return progress.complete ? progress.sha256 : "";
}

/** @param {number} size @param {number} part */
function everyPart(size, part) {
  return Array.from({ length: Math.ceil(size / part) }, (_, number) => number);
}

/** @param {string} path @param {ArrayBuffer} bytes @param {number} number @param {number} part */
function putPart(path, bytes, number, part) {
  const [first, end] = [number * part, Math.min((number + 1) * part, bytes.byteLength)];
  const range = `bytes ${first}-${end - 1}/${bytes.byteLength}`;
  return putPhoto(path, bytes.slice(first, end), { "Content-Range": range });
}
