import { addEvent, caseOf, eventsOf, everythingSaved, NotPrepared, subscribe } from "/static/record/events.js";
import { createVisit, visitOf, visits, saveVisits } from "/static/record/visits.js";
import { readSetting, transact, writeSettings } from "/static/record/database.js";
import { NotOnThisPhone } from "/static/record/work.js";
import { summary } from "/static/record/outbox.js";
import { INSTRUMENT, PERSON, PROCEDURE_NAME, person, work } from "./prepared.js";
import { equal, ok, rejects, test } from "./suite.js";

const VISIT = "11111111-1111-4111-8111-111111111111";
const reading = (typed, value) => ({ typed, unit: "ohm", value, instrument: "i-1" });
const entry = (content, more = {}) => ({ visit: VISIT, field: "earthing.continuity", content, ...more });

test("nothing can be written in nobody's name", async () => {
  await rejects(() => addEvent(entry(reading("1", 1))), NotPrepared, "not_prepared", /Prepare this phone/);
  equal(await eventsOf(VISIT), []);
});

test("an event says who, what, where, when and with which app", async () => {
  await person();
  const before = new Date().toISOString();
  const made = await addEvent(entry(reading("0,08", 0.08)));
  const { id, at, hlc, ...rest } = made;
  equal(rest, {
    visit: VISIT,
    field: "earthing.continuity",
    item: null,
    content: { typed: "0,08", unit: "ohm", value: 0.08, instrument: "i-1" },
    replaces: [],
    reason: null,
    by: PERSON.id,
    device: "oKIywvGUpTVTyxMQ3bwIIeQUudfr_CkLMjCE19ECD-U",
    offset: -new Date().getTimezoneOffset(),
    app: "tests",
  });
  ok(/^[0-9a-f]{8}-[0-9a-f]{4}-4/.test(id) && at >= before && hlc.endsWith("-oKIywvGU"));
});

test("events are told apart and ordered even within one millisecond", async () => {
  const made = await Promise.all([1, 2, 3, 4, 5].map((value) => addEvent(entry(reading(String(value), value)))));
  const times = made.map((event) => event.hlc);
  equal(new Set(times).size, 5);
  const stored = (await eventsOf(VISIT)).map((event) => event.hlc);
  equal(stored, stored.toSorted());
});

test("the clock that an event moved is stored with it", async () => {
  const { time } = await readSetting("clock");
  ok(Math.abs(Date.now() - time) < 5000);
  await writeSettings({ clock: { time: Date.now() + 100_000, count: 3 } });
  const first = await addEvent(entry(reading("9", 9)));
  equal(first.hlc.slice(25, 29), "0004");
});

test("a new reading of a series is named by its own event", async () => {
  const first = await addEvent({ visit: VISIT, field: "earthing.continuity", item: "new", content: reading("1", 1) });
  equal(first.item, first.id);
  const second = await addEvent(entry(reading("2", 2), { item: first.id, replaces: [first.id] }));
  equal([second.item, second.replaces], [first.id, [first.id]]);
});

test("an event waits to be sent from the moment in which it is stored", async () => {
  const before = (await summary()).events;
  await addEvent(entry(reading("3", 3)));
  equal((await summary()).events, before + 1);
});

test("everything is saved when the waiting for it ends", async () => {
  const before = (await eventsOf(VISIT)).length;
  addEvent(entry(reading("4", 4)));
  addEvent(entry(reading("5", 5)));
  await everythingSaved();
  equal((await eventsOf(VISIT)).length, before + 2);
});

test("who watches a visit hears of its entries, and of no other visit's", async () => {
  let heard = 0;
  const stop = subscribe(VISIT, () => (heard += 1));
  await addEvent(entry(reading("6", 6)));
  await addEvent({ ...entry(reading("7", 7)), visit: "22222222-2222-4222-8222-222222222222" });
  equal(heard, 1);
  stop();
  await addEvent(entry(reading("8", 8)));
  equal(heard, 1);
});

test("another window hears of an entry", async () => {
  const frame = document.createElement("iframe");
  frame.src = "/blank.html";
  document.body.append(frame);
  await new Promise((resolve) => (frame.onload = resolve));
  const other = await /** @type {any} */ (frame.contentWindow).eval('import("/static/record/events.js")');
  const heard = new Promise((resolve) => other.subscribe(VISIT, resolve));
  await addEvent(entry(reading("10", 10)));
  await heard;
  frame.remove();
});

test("a visit begins without signal and waits to be sent", async () => {
  const visit = await createVisit({ unit: "u-1", kind: "commissioning", procedure: PROCEDURE_NAME });
  const { state, sent, started_by, last } = await visitOf(visit.id);
  equal([state, sent, started_by, last], ["draft", "waiting", PERSON.id, 0]);
  equal((await visits())[0].id, visit.id);
});

test("an unknown visit is asked for by its name", async () => {
  await rejects(() => visitOf("nowhere"), NotOnThisPhone, "not_on_this_phone", /visit is not on this phone yet/);
});

test("the case of a visit holds plate, used instruments and folded entries", async () => {
  await work();
  const visit = await createVisit({ unit: "u-1", kind: "commissioning", procedure: PROCEDURE_NAME });
  const event = await addEvent({ visit: visit.id, field: "earthing.continuity", content: reading("0,08", 0.08) });
  const { plate, instruments, entries } = await caseOf(visit.id);
  equal(plate, { maximum_pressure: { value: 6 } });
  equal(instruments, { "i-1": INSTRUMENT });
  const cell = /** @type {Cell} */ (entries["earthing.continuity"]);
  equal([cell.value, cell.id], [0.08, event.id]);
});

test("the server's view of a visit is taken over, but not over a signature that it cannot know yet", async () => {
  const visit = await createVisit({ unit: "u-1", kind: "commissioning", procedure: PROCEDURE_NAME });
  const { sent, problem, last, ...plain } = visit;
  await transact(["records", "visits"], "readwrite", async (transaction) => {
    await transaction.objectStore("visits").put({ ...visit, state: "signed", record: "aa" });
    await transaction.objectStore("records").put({ sha256: "aa", visit: visit.id, sent: "waiting" });
  });
  await saveVisits([plain]);
  equal([(await visitOf(visit.id)).state, (await visitOf(visit.id)).sent], ["signed", "received"]);
  await transact(["records"], "readwrite", (transaction) =>
    transaction.objectStore("records").put({ sha256: "aa", visit: visit.id, sent: "received" }),
  );
  await saveVisits([{ ...plain, state: "returned", record: "aa", returned: { reasons: "Again.", by: "q", at: "" } }]);
  equal((await visitOf(visit.id)).state, "returned");
});

test("visits that only this phone knows stay when the server's list comes", async () => {
  const visit = await createVisit({ unit: "u-1", kind: "commissioning", procedure: PROCEDURE_NAME });
  await saveVisits([]);
  equal((await visitOf(visit.id)).sent, "waiting");
});
