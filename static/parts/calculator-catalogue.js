import { phrase, phrases } from "../language/phrase.js";
import { part, say } from "./element.js";

/**
 * The list of formulas, narrowed down as one types.
 * @param {HTMLElement} root
 */
export default function catalogue(root) {
  const search = /** @type {HTMLInputElement} */ (root.querySelector("#search"));
  const sections = [...root.querySelectorAll('[data-part="subject"]')].map((one) => /** @type {HTMLElement} */ (one));
  const narrow = () => {
    const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
    let count = 0;
    for (const section of sections) {
      const rows = [...section.querySelectorAll("li")];
      const subject = section.querySelector("h2")?.textContent ?? "";
      for (const row of rows) {
        const searched = `${subject} ${row.textContent} ${row.dataset.words}`.toLowerCase();
        row.hidden = !words.every((word) => searched.includes(word));
      }
      const shown = rows.filter((row) => !row.hidden).length;
      section.hidden = shown === 0;
      count += shown;
    }
    say(part(root, "found"), words.length === 0 ? "" : told(count));
  };
  part(root, "send").hidden = true;
  part(root, "search").addEventListener("submit", (/** @type {Event} */ event) => event.preventDefault());
  search.addEventListener("input", narrow);
  // The kept page is the whole list, whatever the address searches for.
  search.value ||= new URLSearchParams(location.search).get("search") ?? "";
  narrow();
}

/** @param {number} count */
function told(count) {
  return count === 0 ? phrase("No formula has all of these words. Try fewer of them.") : phrases("One formula found.", "{count} formulas found.", count);
}
