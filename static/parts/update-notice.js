import { language, phrase } from "../language/phrase.js";
import { make } from "./element.js";
import { action, plainScreen } from "./plain-screen.js";
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
  const { everythingSaved } = await import("../record/events.js");
  await everythingSaved();
}

/** What was typed and could not be stored is on this page alone. */
class NotStored extends Error {}

/** @param {ServiceWorkerRegistration} registration */
async function useNewVersion(registration) {
  await flush();
  if (document.querySelector("[data-unsaved]")) throw new NotStored();
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

/** What is the same for every change of version. */
const SAFE = () => phrase("Everything that you entered. What you are typing is stored before the page loads again, and a visit goes on by the procedure with which it began.");

/** @param {HTMLElement} place @param {string} words @param {() => Promise<any>} go */
function button(place, words, go) {
  const made = action(words, async () => {
    made.disabled = true;
    try {
      await go();
    } catch (error) {
      if (!(error instanceof NotStored)) throw error;
      place.append(make("p", { class: "notice", "data-kind": "error", role: "alert" }, phrase("Not yet: what you typed last could not be stored. It is still on this page, which says what to do.")));
    }
    made.disabled = false;
  });
  return made;
}

/**
 * In short, so that it does not stand in the way of the work; the whole screen for who asks.
 * @param {HTMLElement} place @param {ServiceWorkerRegistration} registration
 */
function offer(place, registration) {
  const use = () => button(place, phrase("Use the new version"), () => useNewVersion(registration));
  const brief = () => {
    const what = action(phrase("What is that?"), whole, true);
    show(place, "info", make("p", {}, phrase("A new version of the app is ready.")), make("div", { class: "row" }, use(), what));
  };
  const whole = () => {
    const screen = plainScreen({
      kind: "info",
      title: phrase("A new version of the app is ready"),
      happened: phrase("It came while there was signal, is complete, and waits."),
      safe: SAFE(),
      now: phrase("Take it when it suits you, best between two steps."),
      actions: [use(), action(phrase("Later"), brief, true)],
      otherwise: phrase("You go on with the version that you have, also without signal. The new one starts by itself once all windows of the app were closed."),
    });
    place.replaceChildren(screen);
    screen.focus();
  };
  brief();
}

/** @param {HTMLElement} place */
function offerReload(place) {
  const reload = async () => {
    await flush();
    if (document.querySelector("[data-unsaved]")) throw new NotStored();
    location.reload();
  };
  place.replaceChildren(
    plainScreen({
      title: phrase("The app was updated in another window"),
      happened: phrase("Another window of this app took the new version. This one still runs the one before."),
      safe: SAFE(),
      now: phrase("Reload this page to go on."),
      actions: [button(place, phrase("Reload this page"), reload)],
      otherwise: phrase("This page goes on for a while, but parts that it has not loaded yet may fail to start."),
    }),
  );
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
 * Registers the worker when the page has started, and asks before a new version takes over; never reloads by itself.
 * @param {HTMLElement} place
 * @param {Promise<unknown>} started
 */
export default async function updateNotice(place, started) {
  addEventListener("firstwater:updated-elsewhere", () => offerReload(place));
  if (!isSecureContext) {
    show(place, "error", phrase("This address is not secure, so nothing can be stored or signed here. Open the app by https."));
    return;
  }
  offerLanguages(place);
  await started;
  const registration = await registerWorker();
  if (registration) watch(place, registration);
  else show(place, "warning", phrase("This browser does not allow work without signal. Leave private browsing or use another browser."));
}
