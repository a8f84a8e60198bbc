// A worker that judges visits beside the page, so that a list of them can be read and touched meanwhile. Named by the
// page's language. Answers each id of a visit with its outline, null where the visit could not be judged.

import { outlineOfVisit } from "./outline-of-visit.js";

const worker = /** @type {any} */ (self);

worker.onmessage = async (/** @type {MessageEvent<string>} */ { data: id }) => {
  const outline = await outlineOfVisit(id).catch((error) => {
    console.warn("outline", error);
    return null;
  });
  worker.postMessage({ id, outline });
};
