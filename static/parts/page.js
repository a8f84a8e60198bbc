import { inLanguage, phrase } from "../language/phrase.js";
import { afterPaint } from "./after-paint.js";
import { make, part } from "./element.js";
import { failure } from "./failure.js";
import { keepOutlineOf } from "./outline.js";
import { slugOf } from "./progress.js";
import { keepFresh, openVisit } from "./session.js";
import { VISIT_STATES } from "./words.js";

/** @returns {string | null} */
export function visitInAddress() {
  return new URLSearchParams(location.search).get("visit");
}

/**
 * Open the visit that the address names and point the page's links at it; null when the page says why it could not.
 * @param {HTMLElement} root
 * @returns {Promise<import("./session.js").VisitSession | null>}
 */
export async function openPage(root) {
  const id = visitInAddress();
  try {
    if (id === null) throw Object.assign(new Error(phrase("Choose a visit first: this page belongs to one.")), { code: "no_visit" });
    const session = await openVisit(id);
    if (root.dataset.procedure && root.dataset.procedure !== slugOf(session.visit.procedure)) {
      location.replace(location.href.replace(root.dataset.procedure, slugOf(session.visit.procedure)));
      return null;
    }
    if (!session.open && session.events.size === 0) {
      root.replaceChildren(.../** @type {Node[]} */ ([root.querySelector("h1"), elsewhere(session), wayBack()].filter(Boolean)));
      return null;
    }
    bindToVisit(root, session);
    keepFresh(session);
    keepOutlineOf(session);
    const tellTimes = afterPaint(async () => (await import("./notify.js")).ringWhenOver(root, session));
    tellTimes();
    return session;
  } catch (error) {
    root.replaceChildren(.../** @type {Node[]} */ ([root.querySelector("h1"), failure(error), wayBack()].filter(Boolean)));
    return null;
  }
}

function wayBack() {
  return make("p", {}, make("a", { class: "button", href: inLanguage("/field") }, phrase("Go to my visits")));
}

/**
 * A signed visit whose entries never came to this phone must not look like an empty one.
 * @param {import("./session.js").VisitSession} session
 */
function elsewhere({ visit, unit, site }) {
  const words = phrase("It was signed on another phone, and its entries are not on this one. The server has them: the supervisor and the quality office can open the record there.");
  return make(
    "div",
    { class: "card" },
    make("p", { class: "row" }, make("strong", {}, unit.name), make("span", { class: "tag", "data-state": visit.state }, phrase(VISIT_STATES[visit.state]))),
    make("p", { class: "muted" }, [site.name, unit.serial].join(" - ")),
    make("p", {}, words),
    visit.record ? make("p", { class: "code" }, phrase("Record"), " ", make("code", {}, visit.record.slice(0, 16))) : null,
  );
}

/** @param {HTMLElement} root @param {import("./session.js").VisitSession} session */
function bindToVisit(root, session) {
  for (const link of /** @type {NodeListOf<HTMLAnchorElement>} */ (root.querySelectorAll("a[data-link]"))) {
    link.search = inLanguage(`?visit=${session.visit.id}`);
  }
  for (const form of root.querySelectorAll("form")) form.addEventListener("submit", (event) => event.preventDefault());
  part(root, "unit")?.append(`${session.unit.name}, ${session.site.name}`);
}
