// Takes over what the server knows and this phone does not: reference data, visits, other phones' events.

import { announce } from "../record/changes.js";
import { read, received, START } from "../record/clock.js";
import { readSetting, transact } from "../record/database.js";
import { isOpen, saveVisits, visits } from "../record/visits.js";
import { completed, heldProcedures, lastAnswer, saveUnits, saveWork } from "../record/work.js";
import { get, getNews, post } from "./api.js";

/** Durable when the promise resolves. Procedures and units that are on this phone do not travel again. */
export async function fetchWork() {
  const [have, last] = await Promise.all([heldProcedures(), lastAnswer()]);
  const news = await getNews(`/api/work?have=${have.join(",")}&since=${last.cursor ?? ""}`, last.tag);
  // The same answer as last time is taken in once more: a visit may have been lost here since.
  if (news === null) return saveVisits(last.visits);
  /** @type {Work & import("../record/work.js").Delta} */
  const work = news.answer;
  // The tag names all that there is, so it is kept when the last unit is here and not before.
  const tag = work.more ? null : news.tag;
  await saveWork({ ...work, procedures: await Promise.all(work.procedures.map(completed)) }, tag);
  await saveVisits(work.visits);
  if (work.more) await fetchUnits(news.tag);
}

/** Each answer is kept before the next one is asked for: what a lost signal cuts off goes on from there. @param {string | null} tag */
async function fetchUnits(tag) {
  let isMore = true;
  while (isMore) {
    const page = await get(`/api/units?since=${(await lastAnswer()).cursor}`);
    isMore = page.more;
    await saveUnits(page, isMore || page.since === null ? null : tag);
  }
}

/**
 * Store events of other phones and how far we have read, and let the clock follow them: all in one transaction.
 * @param {string} visit
 * @param {{events: EntryEvent[], last: number}} answer
 */
async function keep(visit, { events, last }) {
  return transact(["events", "visits", "settings"], "readwrite", async (transaction) => {
    const [store, settings] = [transaction.objectStore("events"), transaction.objectStore("settings")];
    let clock = (await settings.get("clock")) ?? START;
    let isNews = false;
    for (const event of events) {
      clock = received(clock, read(event.hlc), Date.now());
      if ((await store.get(event.id)) !== undefined) continue;
      await store.put({ id: event.id, visit, sent: "received", problem: null, event });
      isNews = true;
    }
    const known = await transaction.objectStore("visits").get(visit);
    await Promise.all([settings.put(clock, "clock"), transaction.objectStore("visits").put({ ...known, last })]);
    return isNews;
  });
}

/** How many events that were made here this phone holds, by visit that is not finished. @param {string} device */
function held(device) {
  return transact(["visits", "events"], "readonly", async (transaction) => {
    /** @type {Record<string, number>} */
    const counts = {};
    for (const visit of await transaction.objectStore("visits").getAll()) {
      if (visit.state === "accepted") continue;
      const events = await transaction.objectStore("events").index("visit").getAll(visit.id);
      counts[visit.id] = events.filter((/** @type {StoredEvent} */ one) => one.event.device === device).length;
    }
    return counts;
  });
}

/**
 * Tell the server what this phone still has of its own, before anything is fetched: a phone that lost its storage is
 * noticed there, and what it had sent is fetched again.
 */
export async function reportHeld() {
  const device = await readSetting("device");
  if (!device) return;
  const { short } = await post("/api/held", { device: device.thumbprint, visits: await held(device.thumbprint) });
  await transact(["visits"], "readwrite", async (transaction) => {
    const store = transaction.objectStore("visits");
    for (const id of short) {
      const visit = await store.get(id);
      if (visit) await store.put({ ...visit, last: 0 });
    }
  });
}

/** Fetch the events that other phones added to the open visits. */
export async function fetchEvents() {
  for (const visit of await visits()) {
    if (visit.sent !== "received" || !isOpen(visit)) continue;
    const answer = await get(`/api/visits/${visit.id}/events?after=${visit.last}`);
    if (answer.events.length > 0 && (await keep(visit.id, answer))) announce(visit.id, "sending");
  }
}
