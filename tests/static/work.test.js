import { transact } from "/static/record/database.js";
import { heldProcedures, lastAnswer, NotOnThisPhone, procedureOf, procedures, saveWork } from "/static/record/work.js";
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

test("the last answer is kept with its tag and its visits", async () => {
  await saveWork({ ...EMPTY, visits: [visit(NEWER_NAME)], procedures: [NEWER] }, 'W/"tag"');
  equal(await lastAnswer(), { tag: 'W/"tag"', visits: [visit(NEWER_NAME)] });
});

test("a procedure that came with the pages need not be sent", async () => {
  const hash = "ef".repeat(32);
  const cache = await caches.open("app-test");
  await cache.put("/field/service-1/procedure.json", new Response("{}", { headers: { ETag: `"${hash}"` } }));
  equal((await heldProcedures()).includes(hash), true);
  await caches.delete("app-test");
});
