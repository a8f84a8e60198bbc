import { phrase } from "../language/phrase.js";
import { addPhoto, photoOf } from "../record/photos.js";
import { inputOf } from "./controls.js";
import { make, part, say } from "./element.js";

/** @param {HTMLElement} figure @param {any} content @param {string} label */
async function showPicture(figure, content, label) {
  const shown = content?.sha256 ?? "";
  if (figure.dataset.shown === shown) return;
  figure.dataset.shown = shown;
  figure.hidden = shown === "";
  if (figure.hidden) return figure.replaceChildren();
  const picture = await photoOf(shown);
  const caption = phrase("Photo, {size} kB", { size: Math.round(content.size / 1024) });
  if (picture === null) return figure.replaceChildren(make("p", { class: "muted" }, `${caption}. ${phrase("It is not on this phone: taken with another one, or cleared after acceptance.")}`));
  const image = make("img", { alt: label, src: URL.createObjectURL(picture) });
  image.addEventListener("load", () => URL.revokeObjectURL(image.src), { once: true });
  figure.replaceChildren(image, make("figcaption", {}, caption));
}

/**
 * One picture: stored as soon as the camera gives it, then named by its hash in the record.
 * @param {HTMLElement} element
 * @param {any} entry
 * @param {import("./session.js").VisitSession} session
 */
export function mountPhoto(element, entry, session) {
  const input = inputOf(element, entry);
  const field = element.dataset.entry ?? "";
  const error = part(element, "error");
  input.addEventListener("change", async () => {
    const file = input.files?.[0];
    if (!file) return;
    say(error, "");
    say(part(element, "read"), phrase("Storing the photo ..."));
    try {
      await session.write(field, await addPhoto(file, session.visit.id));
    } catch (problem) {
      say(error, /** @type {Error} */ (problem).message);
    }
    say(part(element, "read"), "");
    input.value = "";
  });
  const remove = make("button", { type: "button", class: "button quiet small", onclick: () => session.write(field, null) }, phrase("Remove the photo"));
  part(element, "picture").after(remove);
  session.follow(() => {
    const content = session.content(field);
    remove.hidden = !content || !session.open;
    showPicture(part(element, "picture"), content, entry.label);
  });
}
