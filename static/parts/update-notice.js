import { everythingSaved } from "../record/events.js";
import { make } from "./element.js";
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
    return (await navigator.serviceWorker.register(workerAddress(), { updateViaCache: "none" })) ?? null;
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
  const button = make("button", { type: "button", class: "button quiet" }, "Use the new version");
  button.addEventListener("click", () => {
    button.disabled = true;
    useNewVersion(registration);
  });
  const text = "A new version of the app is ready. What you typed is stored before the page loads again.";
  show(place, "info", make("p", {}, text), button);
}

/** @param {HTMLElement} place */
function offerReload(place) {
  const button = make("button", { type: "button", class: "button quiet" }, "Reload this page");
  button.addEventListener("click", async () => {
    await flush();
    location.reload();
  });
  show(place, "warning", make("p", {}, "The app was updated in another window. Reload this page to go on."), button);
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
    show(place, "error", "This address is not secure, so nothing can be stored or signed here. Open the app by https.");
    return;
  }
  const registration = await registerWorker();
  if (registration) watch(place, registration);
  else show(place, "warning", "This browser does not allow work without signal. Leave private browsing or use another browser.");
}
