import { language, phrase } from "../language/phrase.js";
import { everythingSaved } from "../record/events.js";
import { make } from "./element.js";
import { choosePhoneLanguage, phoneLanguage } from "./phone-language.js";
import { workerAddress } from "./trusted.js";

const TYPING_PAUSE = 500;
const TAKEOVER_LIMIT = 5_000;

/** @param {number} time */
const pause = (time) => new Promise((resolve) => setTimeout(resolve, time));

/**
 * The service worker, registered for the whole app; null where the browser has none or refuses it.
 * @returns {Promise<ServiceWorkerRegistration | null>}
 */
export async function registerWorker() {
  if (!("serviceWorker" in navigator)) return null;
  try {
    return (await navigator.serviceWorker.register(workerAddress(phoneLanguage()), { updateViaCache: "none" })) ?? null;
  } catch (error) {
    console.warn("serviceWorker.register", error);
    return null;
  }
}

/** Leave the field that is being edited, wait until what was typed is handed over, then until it is durable. */
async function flush() {
  /** @type {HTMLElement | null} */ (document.activeElement)?.blur();
  await pause(TYPING_PAUSE);
  await everythingSaved();
}

/** @param {ServiceWorkerRegistration} registration */
async function useNewVersion(registration) {
  await flush();
  if (registration.waiting && navigator.serviceWorker.controller) {
    const takenOver = new Promise((resolve) =>
      navigator.serviceWorker.addEventListener("controllerchange", resolve, { once: true }),
    );
    registration.waiting.postMessage("activate-now");
    await Promise.race([takenOver, pause(TAKEOVER_LIMIT)]);
  }
  location.reload();
}

/** @param {HTMLElement} place @param {string} kind @param {...(Node | string)} content */
function show(place, kind, ...content) {
  place.replaceChildren(make("div", { class: "notice", "data-kind": kind, role: "status" }, ...content));
}

/** @param {HTMLElement} place @param {ServiceWorkerRegistration} registration */
function offer(place, registration) {
  const button = make("button", { type: "button", class: "button quiet" }, phrase("Use the new version"));
  button.addEventListener("click", () => {
    button.disabled = true;
    useNewVersion(registration);
  });
  const text = phrase("A new version of the app is ready. What you typed is stored before the page loads again.");
  show(place, "info", make("p", {}, text), button);
}

/** @param {HTMLElement} place */
function offerReload(place) {
  const button = make("button", { type: "button", class: "button quiet" }, phrase("Reload this page"));
  button.addEventListener("click", async () => {
    await flush();
    location.reload();
  });
  show(place, "warning", make("p", {}, phrase("The app was updated in another window. Reload this page to go on.")), button);
}

/**
 * Fetch the pages of another language and let them take over, as the person has just asked for.
 * @param {HTMLElement} place @param {string} chosen
 */
async function changeLanguage(place, chosen) {
  const before = phoneLanguage();
  show(place, "info", phrase("Fetching the pages in the other language ..."));
  choosePhoneLanguage(chosen);
  const registration = await registerWorker();
  const worker = registration?.installing ?? registration?.waiting;
  if (registration && worker) {
    await new Promise((resolve) => {
      const look = () => worker.state !== "installing" && resolve(null);
      worker.addEventListener("statechange", look);
      look();
    });
    if (worker.state !== "redundant") return useNewVersion(registration);
  }
  choosePhoneLanguage(before);
  show(place, "warning", phrase("The pages in the other language could not be fetched. Try again where there is signal."));
}

/** Without a worker the links lead to the pages themselves. @param {HTMLElement} place */
function offerLanguages(place) {
  for (const link of /** @type {NodeListOf<HTMLAnchorElement>} */ (document.querySelectorAll("a[data-language]"))) {
    link.addEventListener("click", (event) => {
      const chosen = link.dataset.language ?? "";
      if (navigator.serviceWorker?.controller) event.preventDefault();
      else return choosePhoneLanguage(chosen);
      if (chosen !== language) changeLanguage(place, chosen);
    });
  }
}

/** @param {HTMLElement} place @param {ServiceWorkerRegistration} registration */
function watch(place, registration) {
  // Without a controller the worker that installs is the first one, and there is nothing to replace.
  const offerIfWaiting = () => {
    if (registration.waiting && navigator.serviceWorker.controller) offer(place, registration);
  };
  offerIfWaiting();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", offerIfWaiting);
  });
  let wasControlled = navigator.serviceWorker.controller !== null;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (wasControlled) offerReload(place);
    wasControlled = true;
  });
}

/**
 * Registers the worker and asks before a new version takes over; never reloads by itself.
 * @param {HTMLElement} place
 */
export default async function updateNotice(place) {
  addEventListener("firstwater:updated-elsewhere", () => offerReload(place));
  if (!isSecureContext) {
    show(place, "error", phrase("This address is not secure, so nothing can be stored or signed here. Open the app by https."));
    return;
  }
  offerLanguages(place);
  const registration = await registerWorker();
  if (registration) watch(place, registration);
  else show(place, "warning", phrase("This browser does not allow work without signal. Leave private browsing or use another browser."));
}
