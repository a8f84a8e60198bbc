import { inLanguage, language, phrase } from "../language/phrase.js";
import { retryProblems, unsent } from "../record/outbox.js";
import { keepPerson, makeKey, makeVerifier, preparedFor, proofOf } from "../signing/device-key.js";
import { keepPasskeys } from "../signing/passkey.js";
import { get, openSession, post } from "../sync/api.js";
import { fetchWork } from "../sync/fetch.js";
import { make, ready } from "./element.js";
import { readsCodes } from "./find-codes.js";
import { choosePhoneLanguage } from "./phone-language.js";
import { registerWorker } from "./update-notice.js";

const INSTALL_LIMIT = 90_000; // without any news

/** Something that keeps this phone from being prepared; the sentence says what to do. */
class NotReady extends Error {
  /** @param {string} code @param {string} sentence */
  constructor(code, sentence) {
    super(sentence);
    this.name = "NotReady";
    this.code = code;
  }
}

/**
 * Resolves when the first worker is active. It installs only with every file verified and in place.
 * @param {ServiceWorkerRegistration} registration
 * @param {(kept: number, of: number) => void} tell
 * @returns {Promise<void>}
 */
function activated(registration, tell) {
  return new Promise((resolve, reject) => {
    const worker = registration.installing ?? registration.waiting;
    const refused = phrase("The app's files did not arrive whole. Stay where there is signal and prepare again.");
    const slow = phrase("The app's files are not all here yet. Stay where there is signal and prepare again.");
    let timer = 0;
    const wait = () => {
      clearTimeout(timer);
      timer = window.setTimeout(() => reject(new NotReady("files_slow", slow)), INSTALL_LIMIT);
    };
    const look = () => {
      if (registration.active) resolve();
      else if (!worker || worker.state === "redundant") reject(new NotReady("files_refused", refused));
    };
    worker?.addEventListener("statechange", look);
    navigator.serviceWorker.addEventListener("message", ({ data }) => {
      if (!data?.of) return;
      wait();
      tell(data.kept, data.of);
    });
    wait();
    look();
  });
}

/** @param {(kept: number, of: number) => void} tell */
async function filesAreKept(tell) {
  choosePhoneLanguage(language);
  const registration = await registerWorker();
  const sentence = phrase("This browser does not keep the app for work without signal. Leave private browsing, or use another browser.");
  if (registration === null) throw new NotReady("no_worker", sentence);
  await activated(registration, tell);
  if (!(await caches.match("/field", { ignoreVary: true }))) {
    throw new NotReady("files_missing", phrase("The app's files are not all here. Prepare again where there is signal."));
  }
}

/**
 * What reads codes is kept too, where there is room and signal for it: without it codes are typed. Whether it is here.
 * @returns {Promise<boolean>}
 */
async function keepCodeReader() {
  if (await readsCodes()) return true;
  const worker = (await navigator.serviceWorker.getRegistration())?.active;
  if (!worker) return false;
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve) => {
    const timer = setTimeout(() => resolve(false), INSTALL_LIMIT);
    port1.onmessage = ({ data }) => {
      clearTimeout(timer);
      resolve(data.kept);
    };
    worker.postMessage("keep-optional", [port2]);
  });
}

/**
 * Entries of somebody else that would wait until the phone is prepared for them again.
 * @param {Person} person
 */
async function leftBehind(person) {
  const before = (await preparedFor()).person;
  if (before === null || before.id === person.id) return null;
  const { events, photos, records } = await unsent();
  const count = events.length + photos.length + records.length;
  return count > 0 ? { name: before.name, count } : null;
}

/** @param {string} name @param {string} password @param {Person} person */
async function enrol(name, password, person) {
  const [key, verifier] = await Promise.all([makeKey(), makeVerifier(password)]);
  const proof = await proofOf(key, person);
  const answer = await post("/api/devices", { jwk: key.jwk, name, password, proof });
  if (answer.thumbprint !== key.thumbprint) {
    throw new NotReady("other_key", phrase("The server noted another key than this phone's. Try again; tell the administrator if it stays."));
  }
  const device = { thumbprint: key.thumbprint, jwk: key.jwk, name: answer.name, enrolled_at: answer.enrolled_at };
  await keepPerson({ person, device, verifier });
}

/** @param {FormData} form */
function checkFilled(form) {
  if (!String(form.get("name")).trim()) throw new NotReady("name_missing", phrase("Enter a name for this phone."));
  if (!form.get("password")) throw new NotReady("password_missing", phrase("Enter your password."));
}

/** @param {HTMLElement} result @param {string} kind @param {...(Node | string)} content */
function show(result, kind, ...content) {
  result.replaceChildren(make("div", { class: "notice", "data-kind": kind }, ...content));
}

/**
 * @param {FormData} form
 * @param {HTMLElement} result
 * @param {{isWarned: boolean}} seen
 */
async function prepare(form, result, seen) {
  checkFilled(form);
  show(result, "info", phrase("Preparing this phone ..."));
  const { person } = await openSession();
  const left = await leftBehind(person);
  if (left && !seen.isWarned) {
    seen.isWarned = true;
    const sentence = phrase("{count} entries of {name} are only on this phone. Let {name} sign in and send them first. To go on all the same, prepare again: they stay here until the phone is prepared for {name}.", { count: left.count, name: left.name });
    throw new NotReady("entries_of_another_person", sentence);
  }
  await enrol(String(form.get("name")).trim(), String(form.get("password")), person);
  await keepPasskeys(person.id, await get("/api/passkeys"));
  await filesAreKept((kept, of) => show(result, "info", phrase("Preparing this phone: {kept} of {of} files are here ...", { kept, of })));
  // After the files, because the procedures come with them.
  await fetchWork();
  // What the server refused because it did not know this phone is no problem any more.
  await retryProblems();
  show(result, "success", make("p", {}, phrase("This phone is ready for offline work.")), make("a", { class: "button", href: inLanguage("/field") }, phrase("Go to the visits")));
  if (!(await keepCodeReader())) {
    result.append(make("p", { class: "muted" }, phrase("What reads codes is not on this phone yet: it comes with the first scan, or type the code.")));
  }
}

/** On an iPhone the app on the home screen has a storage of its own, and only that one is kept for long. */
function installFirst() {
  if (!("standalone" in navigator) || navigator.standalone) return null;
  const text = phrase("First add Firstwater to the home screen: Share, then Add to Home Screen. Open it from there and prepare the phone there. What is stored in this browser window is removed after seven days without use.");
  return make("p", { class: "notice", "data-kind": "warning" }, text);
}

/**
 * Makes this phone one person's: key, enrolment, reference data, kept files. Says that it is ready only when all of
 * these are in place.
 * @param {HTMLFormElement} form with the fields `name` and `password`
 */
export default function preparePhone(form) {
  const result = make("div", { role: "status" });
  form.append(result);
  const advice = installFirst();
  if (advice) form.prepend(advice);
  const seen = { isWarned: false };
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const button = /** @type {HTMLButtonElement | null} */ (event.submitter);
    if (button) button.disabled = true;
    try {
      await prepare(new FormData(form), result, seen);
    } catch (error) {
      const { code = "unexpected", message } = /** @type {any} */ (error);
      show(result, "error", `${message} (${code})`);
    }
    if (button) button.disabled = false;
  });
  ready(form);
}
