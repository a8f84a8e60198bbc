import { KeyError, preparedFor, signCompact } from "../signing/device-key.js";

/** @param {HTMLFormElement} form @param {string} name @returns {string} */
function valueOf(form, name) {
  const value = new FormData(form).get(name);
  return typeof value === "string" ? value.trim() : "";
}

/** @param {HTMLFormElement} form @returns {HTMLInputElement | null} */
function chosen(form) {
  return form.querySelector('input[name="decision"]:checked');
}

/**
 * The decision's payload (docs/api.md). Its meaning stands beside the choice, where the person reads it.
 * @param {HTMLFormElement} form
 * @param {string} device thumbprint
 */
function payloadOf(form, device) {
  const now = new Date();
  const choice = chosen(form);
  return {
    type: "firstwater-decision",
    schema: 1,
    record: form.dataset.record,
    decision: choice?.value ?? "",
    reasons: valueOf(form, "reasons"),
    signer: { id: form.dataset.personId, name: form.dataset.personName, role: form.dataset.personRole },
    meaning: JSON.parse(form.dataset.meanings ?? "{}")[choice?.value ?? ""],
    signed_at: now.toISOString(),
    offset: -now.getTimezoneOffset(),
    device,
  };
}

/** @param {HTMLFormElement} form */
async function sign(form) {
  const { person, device } = await preparedFor();
  if (person !== null && person.id !== form.dataset.personId) {
    const sentence = "This browser is prepared for somebody else. Open Prepare this phone, or sign in as that person.";
    throw new KeyError("other_person", sentence);
  }
  return signCompact(payloadOf(form, device?.thumbprint ?? ""), "firstwater-decision+jws");
}

/** @param {HTMLElement} place @param {{code?: string, message: string}} error */
function show(place, error) {
  place.textContent = `${error.message} (${error.code ?? "not_signed"})`;
  place.hidden = false;
  place.focus();
}

/**
 * Sign a supervisor's decision in the browser, then send the form. Nothing is sent unsigned: what is incomplete goes
 * to the server without a signature only to be told what is missing.
 * @param {HTMLFormElement} form
 */
export default function decide(form) {
  const field = /** @type {HTMLInputElement} */ (form.elements.namedItem("jws"));
  const place = /** @type {HTMLElement} */ (form.querySelector("[data-part=problem]"));
  const button = /** @type {HTMLButtonElement} */ (form.querySelector("[data-part=send]"));
  let signing = false;
  button.disabled = false; // until now a press would have sent the form unsigned
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (signing) return;
    signing = true;
    place.hidden = true;
    try {
      field.value = chosen(form) ? await sign(form) : "";
      form.submit();
    } catch (error) {
      show(place, /** @type {Error} */ (error));
    } finally {
      signing = false;
    }
  });
  preparedFor().then(
    ({ person }) => {
      const advice = /** @type {HTMLElement} */ (form.querySelector("[data-part=not-prepared]"));
      advice.hidden = person?.id === form.dataset.personId;
    },
    (error) => show(place, error),
  );
}
