/** @typedef {{field: string, is: any[] | null}} Condition */

/** What a field of the form says now; null while it is empty. @param {HTMLFormElement} form @param {string} name */
function valueOf(form, name) {
  const value = new FormData(form).get(name);
  return typeof value === "string" && value.trim() !== "" && value !== "None" ? value : null;
}

/** A choice that is still empty takes nothing away. @param {HTMLFormElement} form @param {Condition} condition */
function mayHold(form, { field, is }) {
  const value = valueOf(form, field);
  if (is === null) return value !== null;
  return value === null || is.some((one) => String(one) === value);
}

/**
 * Hide the fields that the other answers of the form leave without a use. Nothing typed is lost: it is only hidden.
 * @param {HTMLElement} root
 */
export default function onlyWhere(root) {
  const form = /** @type {HTMLFormElement} */ (root.closest("form"));
  const places = /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll("[data-when]"));
  const show = () => {
    for (const place of places) {
      const conditions = JSON.parse(place.dataset.when ?? "[]");
      place.hidden = !conditions.every((/** @type {Condition} */ one) => mayHold(form, one));
    }
    for (const group of /** @type {NodeListOf<HTMLElement>} */ (root.querySelectorAll(".group"))) {
      group.hidden = [...group.children].slice(1).every((one) => /** @type {HTMLElement} */ (one).hidden);
    }
  };
  form.addEventListener("input", show);
  show();
}
