import { phrase } from "../language/phrase.js";
import { make, say } from "./element.js";
import { codesIn, codesInPhoto } from "./find-codes.js";

/** @typedef {{text: string, format: string, isGS1: boolean}} Code */

const BETWEEN_LOOKS = 250;
const LONGEST = 2000;

/** @param {HTMLVideoElement} video @returns {Promise<MediaStream | null>} null without a camera, or where it is refused */
async function startCamera(video) {
  try {
    const wanted = { video: { facingMode: "environment", width: { ideal: 1280 } }, audio: false };
    const stream = await navigator.mediaDevices.getUserMedia(wanted);
    video.srcObject = stream;
    await video.play();
    return stream;
  } catch {
    return null;
  }
}

/** @param {Code} code */
const fits = (code) => code.text.trim() !== "" && code.text.length <= LONGEST;

/**
 * Looks through the camera until a code is there, or until it is told to stop.
 * @param {HTMLVideoElement} video
 * @param {AbortSignal} stop
 * @returns {Promise<Code | null>}
 */
async function watchFor(video, stop) {
  while (!stop.aborted) {
    const [found] = video.videoWidth > 0 ? (await codesIn(video, video.videoWidth, video.videoHeight)).filter(fits) : [];
    if (found) return found;
    await new Promise((resolve) => setTimeout(resolve, BETWEEN_LOOKS));
  }
  return null;
}

function inputs() {
  const photo = make("input", { type: "file", id: "scan_photo", accept: "image/*", capture: "environment" });
  const typed = make("input", { type: "text", id: "scan_typed", autocomplete: "off", autocapitalize: "off", spellcheck: "false", maxlength: LONGEST });
  return { photo, typed };
}

/**
 * Reads one code: through the camera, from a photo of it, or as it is typed. Null when the person gives up.
 * @param {string} title what is scanned
 * @returns {Promise<Code | null>}
 */
export function askForCode(title) {
  const { photo, typed } = inputs();
  const video = make("video", { muted: true, playsinline: true, hidden: true, "aria-label": phrase("What the camera sees") });
  const status = make("p", { role: "status", class: "muted" }, phrase("Starting the camera ..."));
  const use = make("button", { class: "button quiet" }, phrase("Use what is typed"));
  const giveUp = make("button", { type: "button", class: "button quiet" }, phrase("Cancel"));
  const form = make(
    "form",
    { class: "stack", novalidate: true },
    make("h2", { id: "scan_title" }, title),
    video,
    status,
    make("div", { class: "field" }, make("label", { for: "scan_photo" }, phrase("Take a photo of the code")), photo),
    make("div", { class: "field" }, make("label", { for: "scan_typed" }, phrase("Type what stands below the code")), typed),
    make("div", { class: "row" }, use, giveUp),
  );
  const dialog = make("dialog", { class: "scan", "aria-labelledby": "scan_title" }, form);
  document.body.append(dialog);
  dialog.showModal();
  return new Promise((resolve) => {
    const stop = new AbortController();
    /** @type {MediaStream | null} */
    let stream = null;
    /** @type {Code | null} */
    let result = null;
    const end = (/** @type {Code | null} */ code) => {
      result = code;
      dialog.close();
    };
    dialog.addEventListener("close", () => {
      stop.abort();
      for (const track of stream?.getTracks() ?? []) track.stop();
      dialog.remove();
      resolve(result);
    });
    giveUp.addEventListener("click", () => end(null));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const text = typed.value.trim();
      if (text) end({ text, format: "typed", isGS1: false });
      else say(status, phrase("Type the code first, or take a photo of it."));
    });
    photo.addEventListener("change", async () => {
      const file = photo.files?.[0];
      if (!file) return;
      say(status, phrase("Looking for a code in the photo ..."));
      try {
        const [found] = (await codesInPhoto(file)).filter(fits);
        if (found) end(found);
        else say(status, phrase("No code was found in the photo. Take it from nearer, flat and without glare, or type the code."));
      } catch (error) {
        say(status, /** @type {Error} */ (error).message);
      }
      photo.value = "";
    });
    startCamera(video).then(async (camera) => {
      stream = camera;
      if (stop.signal.aborted) return camera?.getTracks().forEach((track) => track.stop());
      video.hidden = camera === null;
      if (camera === null) return say(status, phrase("There is no live picture here: take a photo of the code, or type it."));
      say(status, phrase("Hold the code into the picture."));
      try {
        const found = await watchFor(video, stop.signal);
        if (found) end(found);
      } catch (error) {
        say(status, /** @type {Error} */ (error).message);
      }
    });
  });
}
