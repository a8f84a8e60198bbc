// Every page's entry: starts for each element with data-module the module of that name.

import { language, learn, phrase } from "./language/phrase.js";

const OTHERS = ["de"];

/** The words of another language; those of English are the keys. */
async function fetchWords() {
  const found = await Promise.all([
    import(`./generated/words.${language}.js`),
    import("./generated/messages.js"),
    import(`./generated/messages.${language}.js`),
  ]);
  const [{ words }, { speak }, tables] = found;
  learn(words);
  speak(tables);
}

/** What stands around a page has time until the page itself can be used, but no longer than this. */
const AROUND = ["saved-status", "update-notice"];
const PATIENCE = 3_000;

/** @type {Record<string, () => Promise<{default: (element: any, started: Promise<unknown>) => unknown}>>} */
const PARTS = {
  attention: () => import("./parts/attention.js"),
  calculator: () => import("./parts/calculator.js"),
  "calculator-catalogue": () => import("./parts/calculator-catalogue.js"),
  decide: () => import("./parts/decide.js"),
  "error-summary": () => import("./parts/error-summary.js"),
  home: () => import("./parts/home.js"),
  kit: () => import("./parts/kit.js"),
  "only-where": () => import("./parts/only-where.js"),
  "outbox-panel": () => import("./parts/outbox-panel.js"),
  "passkey-add": () => import("./parts/passkey-add.js"),
  "passkey-sign-in": () => import("./parts/passkey-sign-in.js"),
  plate: () => import("./parts/plate.js"),
  "prepare-phone": () => import("./parts/prepare-phone.js"),
  review: () => import("./parts/review.js"),
  "saved-status": () => import("./parts/saved-status.js"),
  step: () => import("./parts/step.js"),
  "update-notice": () => import("./parts/update-notice.js"),
  visit: () => import("./parts/visit.js"),
};

/** @param {HTMLElement} element */
function sayThatItFailed(element) {
  const notice = document.createElement("p");
  notice.className = "notice";
  notice.dataset.kind = "error";
  notice.setAttribute("role", "alert");
  notice.textContent = `${phrase("A part of this page did not start. What you entered is kept; reload the page.")} (part_not_started)`;
  element.before(notice);
  // Nothing gets ready any more.
  for (const waits of element.querySelectorAll("p[data-until-started]")) waits.remove();
}

/** @param {HTMLElement} element @param {Promise<unknown>} started when what the page is about has */
async function start(element, started) {
  try {
    const module = await PARTS[element.dataset.module ?? ""]();
    await module.default(element, started);
  } catch (error) {
    console.error(`data-module="${element.dataset.module}"`, error);
    sayThatItFailed(element);
  }
}

function startAll() {
  const elements = /** @type {HTMLElement[]} */ ([...document.querySelectorAll("[data-module]")]);
  const isAround = (/** @type {HTMLElement} */ { dataset }) => AROUND.includes(dataset.module ?? "");
  const own = elements.filter((one) => !isAround(one)).map((one) => start(one, Promise.resolve()));
  const started = Promise.race([Promise.all(own), new Promise((resolve) => setTimeout(resolve, PATIENCE))]);
  for (const element of elements.filter(isAround)) start(element, started);
}

// Words come before anything is started, because modules say some as they are read; without them the page is English.
if (OTHERS.includes(language)) fetchWords().catch((error) => console.error("words", error)).then(startAll);
else startAll();
