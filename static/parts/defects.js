import { SEVERITIES } from "../generated/messages.js";
import { phrase } from "../language/phrase.js";
import { addPhoto } from "../record/photos.js";
import { defectRow } from "./defect-row.js";
import { make, part } from "./element.js";
import { itemsOf } from "./items.js";

/** @typedef {import("./session.js").VisitSession} VisitSession */

/** @param {any} step */
const fieldOf = (step) => `${step.id}#defect`;

/** The defects of a step as they stand, each with the event that began it. @param {VisitSession} session @param {any} step */
export function defectsOf(session, step) {
  const field = fieldOf(step);
  return itemsOf(session, field).map((begun) => ({ begun, content: session.content(field, begun.item) }));
}

/** @param {string} id @param {string} label @param {HTMLElement} input @param {string} [hint] */
function field(id, label, input, hint = "") {
  input.id = id;
  if (hint) input.setAttribute("aria-describedby", `${id}-hint`);
  return make("div", { class: "field" }, make("label", { for: id }, label), hint ? make("p", { class: "hint", id: `${id}-hint` }, hint) : null, input);
}

/** @param {string} id */
function severityChoice(id) {
  const rows = Object.entries(SEVERITIES).map(([value, { word, meaning }]) =>
    make("label", { class: "choice" }, make("input", { type: "radio", name: id, value }), make("span", {}, make("strong", {}, word), ` - ${meaning}`)),
  );
  return make("fieldset", { class: "field" }, make("legend", {}, phrase("How bad it is")), make("div", { class: "choices" }, ...rows));
}

/** The inputs of a new defect, and how to read and clear them. @param {string} id */
function inputs(id) {
  const text = make("textarea", { rows: "2", autocomplete: "off" });
  const owner = make("input", { type: "text", autocomplete: "off" });
  const due = make("input", { type: "date" });
  const photo = make("input", { type: "file", accept: "image/*", capture: "environment" });
  const severity = severityChoice(`${id}-severity`);
  const chosen = () => /** @type {HTMLInputElement | null} */ (severity.querySelector("input:checked"));
  return {
    text,
    photo,
    fields: [
      field(`${id}-text`, phrase("What is wrong"), text, phrase("What it is and where, so that somebody else finds it.")),
      severity,
      field(`${id}-owner`, phrase("Who puts it right"), owner, phrase("Name or trade.")),
      field(`${id}-due`, phrase("By when"), due),
      field(`${id}-photo`, phrase("Photo (optional)"), photo),
    ],
    read: () => ({ text: text.value.trim(), severity: chosen()?.value ?? "", owner: owner.value.trim(), due: due.value || null }),
    clear() {
      for (const input of [text, owner, due, photo]) input.value = "";
      const mark = chosen();
      if (mark) mark.checked = false;
    },
  };
}

/** What a new defect still lacks, in a sentence; empty when it can be stored. @param {{text: string, severity: string, owner: string}} read */
function lacking({ text, severity, owner }) {
  const absent = [text ? "" : phrase("what is wrong"), severity ? "" : phrase("how bad it is"), owner ? "" : phrase("who puts it right")].filter(Boolean);
  return absent.length ? phrase("Still to say: {absent}.", { absent: absent.join(", ") }) : "";
}

/** @param {any} step @param {VisitSession} session */
function recording(step, session) {
  const form = inputs(`defect-${step.id}`);
  const error = make("p", { class: "error", role: "alert" });
  const details = make("details", { class: "card" });
  const save = async () => {
    const read = form.read();
    error.textContent = lacking(read);
    if (error.textContent) return;
    try {
      const file = form.photo.files?.[0];
      const photo = file ? (await addPhoto(file, session.visit.id)).sha256 : null;
      await session.write(fieldOf(step), { ...read, photo, closed: null }, { item: "new" });
      form.clear();
      details.open = false;
    } catch (problem) {
      error.textContent = /** @type {Error} */ (problem).message;
    }
  };
  details.append(
    make("summary", {}, phrase("Record a defect")),
    make("div", { class: "stack" }, ...form.fields, error, make("button", { type: "button", class: "button quiet", onclick: save }, phrase("Record this defect"))),
  );
  return details;
}

/**
 * Defects can be recorded in every step; an open danger makes the step fail until it is put right.
 * @param {HTMLElement} root
 * @param {any} step
 * @param {VisitSession} session
 */
export function mountDefects(root, step, session) {
  const place = part(root, "defects");
  const list = make("ul", { class: "list plain", "aria-label": phrase("Defects") });
  const form = recording(step, session);
  place.replaceChildren(list, form);
  let shown = "";
  session.follow(() => {
    const found = defectsOf(session, step);
    const now = JSON.stringify([found.map(({ content }) => content), session.open]);
    if (now === shown) return;
    shown = now;
    form.hidden = !session.open;
    list.hidden = found.length === 0;
    list.replaceChildren(...found.map((one) => defectRow(one, session)));
  });
}
