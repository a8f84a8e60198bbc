import { transact } from "/static/record/database.js";
import { heldProcedures, lastAnswer, NotOnThisPhone, procedureOf, procedures, saveUnits, saveWork, units } from "/static/record/work.js";
import { saveVisits } from "/static/record/visits.js";
import { PROCEDURE, PROCEDURE_NAME } from "./prepared.js";
import { equal, rejects, test } from "./suite.js";

const EMPTY = { server_time: "2026-11-25T09:00:00.000Z", people: [], sites: [], units: [], instruments: [], visits: [] };
const NEWER = { ...PROCEDURE, version: 2, hash: "cd".repeat(32) };
const NEWER_NAME = { id: NEWER.id, version: 2, hash: NEWER.hash };

/** @param {(store: any) => Promise<any>} work */
const inStore = (work) => transact(["work"], "readwrite", (transaction) => work(transaction.objectStore("work")));

/** @param {ProcedureName} procedure @returns {any} */
function visit(procedure) {
  return { id: "v-1", unit: "u-1", kind: "commissioning", procedure, state: "draft", started_at: "2026-11-25T09:00:00.000Z", started_by: "p-1", record: null, returned: null };
}

/** A phone of the time when one value held every whole procedure. */
async function earlierPhone() {
  await inStore((store) => store.clear());
  await inStore((store) => store.put([PROCEDURE], "procedures"));
}

test("what an earlier version of the app stored is found", async () => {
  await earlierPhone();
  equal(await procedureOf(PROCEDURE_NAME), PROCEDURE);
  equal(await procedures(), [PROCEDURE]);
});

test("a procedure of the earlier version survives the next list while a visit needs it", async () => {
  await earlierPhone();
  await saveVisits([visit(PROCEDURE_NAME)]);
  await saveWork({ ...EMPTY, procedures: [NEWER] });
  equal(await procedureOf(PROCEDURE_NAME), PROCEDURE);
  equal(await procedures(), [NEWER]);
  equal(await heldProcedures(), [PROCEDURE.hash, NEWER.hash]);
});

test("a procedure that is only named stays as it was stored", async () => {
  await saveWork({ ...EMPTY, procedures: [NEWER] });
  await saveWork({ ...EMPTY, procedures: [NEWER_NAME] });
  equal(await procedureOf(NEWER_NAME), NEWER);
});

test("a procedure that neither a list nor a visit names is dropped", async () => {
  await saveVisits([visit(NEWER_NAME)]);
  await saveWork({ ...EMPTY, procedures: [PROCEDURE, NEWER] });
  await saveWork({ ...EMPTY, procedures: [NEWER_NAME] });
  equal(await heldProcedures(), [NEWER.hash]);
  await rejects(() => procedureOf(PROCEDURE_NAME), NotOnThisPhone, "not_on_this_phone", /procedure commissioning 1/);
});

test("the last answer is kept with its tag, its visits and its cursor", async () => {
  await saveWork({ ...EMPTY, visits: [visit(NEWER_NAME)], procedures: [NEWER], cursor: "5", since: null, more: false }, 'W/"tag"');
  equal(await lastAnswer(), { tag: 'W/"tag"', visits: [visit(NEWER_NAME)], cursor: "5", arriving: null });
});

/** @param {string[]} ids @returns {any[]} */
const named = (ids) => ids.map((id) => ({ id: id[0], name: id }));
const names = async () => (await units()).map((unit) => unit.name);
/** @param {string[]} ids @param {any} more */
const answer = (ids, more) => ({ ...EMPTY, units: named(ids), procedures: [], ...more });

test("a server without cursors brings all units each time", async () => {
  await saveWork(answer(["b1", "a1"], {}));
  await saveWork(answer(["c1", "b2"], {}), "tag");
  equal(await names(), ["b2", "c1"]);
  equal((await lastAnswer()).cursor, null);
});

test("what changed takes the place of what was here, and the rest stays", async () => {
  await saveWork(answer(["a1", "b1"], { cursor: "1", since: null, more: false }));
  await saveWork(answer(["b2", "c1"], { cursor: "2", since: "1", more: true }));
  equal(await names(), ["a1", "b2", "c1"]);
  await saveUnits({ units: named(["a2"]), cursor: "3", since: "2", more: false }, "tag");
  equal(await names(), ["a2", "b2", "c1"]);
  const { tag, cursor } = await lastAnswer();
  equal([tag, cursor], ["tag", "3"]);
});

test("when all units come anew, those that are gone are dropped with the last answer and not before", async () => {
  await saveWork(answer(["a1", "b1", "z1"], { cursor: "1", since: null, more: false }));
  await saveWork(answer(["a2"], { cursor: "8", since: null, more: true }));
  equal(await names(), ["a2", "b1", "z1"]);
  await saveUnits({ units: named(["b2"]), cursor: "9", since: "8", more: true }, null);
  equal(await names(), ["a2", "b2", "z1"]);
  await saveUnits({ units: named(["c2"]), cursor: "10", since: "9", more: false }, "tag");
  equal(await names(), ["a2", "b2", "c2"]);
});

test("visits that are open are kept for the next time, also when an answer brings only others", async () => {
  const open = visit(NEWER_NAME);
  const accepted = { ...open, id: "v-2", state: "accepted" };
  await saveWork(answer([], { visits: [open, accepted], cursor: "1", since: null, more: false }));
  await saveWork(answer([], { visits: [{ ...open, id: "v-3" }], cursor: "2", since: "1", more: false }));
  equal((await lastAnswer()).visits.map((one) => one.id), ["v-1", "v-3"]);
});

test("a procedure that came with the pages need not be sent", async () => {
  const hash = "ef".repeat(32);
  const cache = await caches.open("app-test");
  await cache.put("/field/service-1/procedure.json", new Response("{}", { headers: { ETag: `"${hash}"` } }));
  equal((await heldProcedures()).includes(hash), true);
  await caches.delete("app-test");
});
