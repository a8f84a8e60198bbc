import { phrase, phrases } from "../language/phrase.js";
import { enterAgain, withdrawn } from "../record/again.js";
import { readSetting } from "../record/database.js";
import { giveOut, unsentFile } from "../record/export.js";
import { retryProblems, unsent } from "../record/outbox.js";
import { procedures } from "../record/work.js";
import { sendNow } from "../sync/send.js";
import { make } from "./element.js";
import { action } from "./plain-screen.js";
import { daysAlone, LONG, onlyHere } from "./saved-status.js";
import { moment } from "./words.js";

/** @typedef {import("./plain-screen.js").Situation} Situation */
/** @typedef {Awaited<ReturnType<typeof unsent>>} Unsent */

/** Less room than this is little: a photo takes about half a megabyte. */
const ROOM = 30e6;
const WITHDRAWN = "device_revoked";
const UNKNOWN = "device_unknown";

const HERE = () => phrase("Everything that you entered is on this phone. You can go on working and sign without signal.");

/** @param {string} words @param {string} address @param {boolean} [quiet] */
const link = (words, address, quiet = false) => make("a", { class: quiet ? "button quiet" : "button", href: address }, words);

async function handOver() {
  await giveOut(await unsentFile());
}

const exported = () => action(phrase("Export as a file"), handOver, true);
const prepareAgain = () => link(phrase("Prepare this phone"), "/phone");

/** @param {(words: string) => void} tell */
async function again(tell) {
  const count = await enterAgain();
  tell(phrases("{count} entry was entered again. Look at its step and mark it done again.", "{count} entries were entered again. Look at their steps and mark them done again.", count));
}

async function sendAgain() {
  await retryProblems();
  await sendNow();
}

/**
 * What was entered with a key that is withdrawn.
 * @param {(words: string) => void} tell
 * @returns {Promise<Situation | null>}
 */
async function revoked(tell) {
  const { entries, isPrepared } = await withdrawn();
  if (entries.length === 0) return null;
  const count = entries.length;
  return {
    id: "revoked",
    kind: "error",
    title: phrase("This phone's key was withdrawn"),
    happened: phrases(
      "The administrator has revoked this phone, as is done with a lost one. {count} entry that had not been sent before does not count as yours.",
      "The administrator has revoked this phone, as is done with a lost one. {count} entries that had not been sent before do not count as yours.",
      count,
    ),
    safe: phrase("What was sent before counts. The rest stays on this phone, and the server has set a copy apart, which the supervisor can read."),
    now: isPrepared
      ? phrase("The phone has a new key. If the entries are yours, enter them again with it: one touch does it for all. Then look at each step and mark it done again.")
      : phrase("Speak to the administrator. If the phone is in the right hands, prepare it again: it gets a new key, and you can then enter all of this again with one touch."),
    otherwise: phrase("These entries stay out of the record, and what you enter from now on is refused in the same way until the phone is prepared again."),
    actions: [isPrepared ? action(phrase("Enter them again"), () => again(tell)) : prepareAgain(), exported()],
  };
}

/** The title of a field's step and, for an entry, the label of it. @param {string} field @param {Procedure[]} known */
function titleOf(field, known) {
  const [step, entry] = field.split(/[.#]/);
  const found = known.flatMap((procedure) => procedure.steps).find((one) => one.id === step);
  const label = found?.entries.find((/** @type {any} */ one) => one.id === entry)?.label;
  return [found?.title ?? step, label ?? entry].join(", ");
}

/** @param {StoredEvent | StoredPhoto | StoredRecord | StoredVisit} one @param {Procedure[]} known */
function named(one, known) {
  if ("event" in one) return titleOf(one.event.field, known);
  if ("jws" in one) return phrase("Signed record");
  return "bytes" in one ? phrase("Photo") : phrase("Visit");
}

/**
 * Everything else that the server did not take.
 * @param {Unsent} waiting
 * @returns {Promise<Situation | null>}
 */
async function refused(waiting) {
  const all = Object.values(waiting).flatMap((list) => /** @type {any[]} */ (list));
  const found = all.filter(({ problem }) => problem && problem.code !== WITHDRAWN);
  if (found.length === 0) return null;
  const known = await procedures();
  const rows = found.map((one) => make("li", {}, `${named(one, known)}: ${one.problem.detail} (${one.problem.code})`));
  const unprepared = found.some(({ problem }) => problem.code === UNKNOWN);
  return {
    id: "refused",
    kind: "error",
    title: phrases("The server did not take {count} thing", "The server did not take {count} things", found.length),
    happened: make("ul", {}, ...rows),
    safe: phrase("They stay on this phone as they are, and hold up nothing else that is sent."),
    now: unprepared
      ? phrase("Prepare this phone: the server does not know its key for you. What was refused is then sent again by itself.")
      : phrase("Do what the reason says; then send again. If it stays, export the file and give it to the supervisor."),
    otherwise: phrase("They stay out of the record until the server takes them."),
    actions: [unprepared ? prepareAgain() : action(phrase("Send these again"), sendAgain), exported()],
  };
}

/** @param {SendProgress} progress @param {string} last @returns {Situation | null} */
function signedOut({ state, message }, last) {
  const here = encodeURIComponent(location.pathname + location.search);
  const signIn = link(phrase("Sign in"), `/sign-in?next=${here}`);
  const common = { id: "signed-out", safe: HERE(), actions: [signIn, exported()] };
  const otherwise = phrase("Nothing is sent, and this phone has the only copy. A lost or broken phone would take it along.");
  if (state === "signed_out") {
    const happened = `${phrase("The server asks you to sign in again: a session ends after a while, when the password changes, or when somebody ends it.")} ${last}`;
    return { ...common, title: phrase("You are signed out"), happened, now: phrase("Sign in while there is signal. What waits is then sent by itself."), otherwise };
  }
  if (state !== "other_person") return null;
  return { ...common, title: phrase("Somebody else is signed in"), happened: message, now: phrase("Sign in as the person for whom this phone was prepared, or prepare it for yourself."), otherwise };
}

/** @param {number} days @param {string | null} here @param {string} last @returns {Situation | null} */
function longOffline(days, here, last) {
  if (days < LONG) return null;
  return {
    id: "long-offline",
    title: phrases("{count} day without the server", "{count} days without the server", days),
    happened: `${last} ${phrase("Since then this phone has not heard of other phones' entries, returned records, new units and new calibrations.")}`,
    safe: HERE(),
    now: here
      ? phrase("Go where there is signal and send. Only on this phone: {here}.", { here })
      : phrase("Go where there is signal and fetch what is new."),
    otherwise: phrase("A visit goes on by the procedure with which it began, also when there is a newer one. But a phone that is lost takes with it what was not sent, and the browser may clear what it thinks forgotten."),
    actions: [action(here ? phrase("Send now") : phrase("Fetch now"), () => sendNow()), here ? exported() : null],
  };
}

/** @returns {Promise<Situation | null>} */
async function littleRoom() {
  const { usage = 0, quota = Infinity } = (await navigator.storage?.estimate?.().catch(() => undefined)) ?? {};
  if (quota - usage > ROOM) return null;
  const left = Math.max(0, Math.floor((quota - usage) / 1e6));
  return {
    id: "little-room",
    title: phrase("This phone is nearly full"),
    happened: phrase("The browser has {left} MB left for this app; a photo takes about half of one.", { left }),
    safe: phrase("Everything that was stored so far stays stored."),
    now: phrase("Send what waits: photos of accepted records then leave this phone. Delete films and apps that you do not need."),
    otherwise: phrase("When it is full, a page says that it could not store, and keeps what you typed on the screen until there is room."),
    actions: [action(phrase("Send now"), () => sendNow())],
  };
}

/**
 * Everything out of the ordinary about this phone and its sending, the worst first.
 * @param {SendProgress} progress
 * @param {(words: string) => void} tell says what was done
 * @returns {Promise<Situation[]>}
 */
export async function situations(progress, tell) {
  const [waiting, fetchedAt = 0] = await Promise.all([unsent(), readSetting("fetchedAt")]);
  const { visits, events, photos, records } = waiting;
  const here = onlyHere(/** @type {any} */ ({ visits: visits.length, events: events.length, photos: photos.length, records: records.length }));
  const last = fetchedAt ? phrase("The server was last reached {moment}.", { moment: moment(new Date(fetchedAt)) }) : "";
  const away = signedOut(progress, last) ?? longOffline(await daysAlone(), here, last);
  const found = [await revoked(tell), await refused(waiting), away, await littleRoom()];
  return /** @type {Situation[]} */ (found.filter((one) => one !== null));
}
