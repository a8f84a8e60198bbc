import { transact } from "/static/record/database.js";
import { basisOf, keepOutline } from "/static/record/outlines.js";
import { overview } from "/static/record/overview.js";
import { PROCEDURE_NAME } from "./prepared.js";
import { equal, ok, test } from "./suite.js";

const cell = (/** @type {number} */ value) => ({ value });
const visit = /** @type {any} */ ({ id: "v-1", unit: "u-1", procedure: PROCEDURE_NAME, state: "draft", started_at: "2026-11-25T09:00:00.000Z", sent: "waiting" });
const from = /** @type {any} */ ({
  visit,
  count: 2,
  unit: { id: "u-1", name: "Feed", plate: { flow: cell(2) } },
  site: { id: "s-1", name: "Site", values: { pressure: cell(6) } },
  known: [{ id: "ct-04", accuracy_of_reading: 0.02 }],
});

test("what a judgement is made of has one name, and anything else in it another", async () => {
  const others = [
    { count: 3 },
    { visit: { ...visit, state: "returned" } },
    { visit: { ...visit, procedure: { ...PROCEDURE_NAME, hash: "cd".repeat(32) } } },
    { unit: { ...from.unit, plate: { flow: cell(3) } } },
    { unit: { ...from.unit, baseline: { record: "r-1", values: { flow: cell(2) } } } },
    { site: { ...from.site, values: { pressure: cell(5) } } },
    { known: [{ id: "ct-04", accuracy_of_reading: 0.01 }] },
  ];
  const names = await Promise.all([{}, ...others].map((other) => basisOf({ ...from, ...other })));
  equal(new Set(names).size, others.length + 1);
  equal(await basisOf(structuredClone(from)), names[0]);
});

test("the list has of each visit what is kept of it and what the server lacks, and of an open one its events", async () => {
  const outline = { basis: "b", total: 20, settled: 3, next: null, results: [], blocking: 0, conflicts: 0 };
  const event = (/** @type {string} */ id, /** @type {string} */ sent, of = "v-1") => ({ id, visit: of, sent, problem: null, event: {} });
  await transact(["visits", "events"], "readwrite", async (transaction) => {
    await transaction.objectStore("visits").put(visit);
    await transaction.objectStore("visits").put({ ...visit, id: "v-2", state: "signed", sent: "received", started_at: "2026-11-26T09:00:00.000Z" });
    const events = [event("e-1", "waiting"), event("e-2", "received"), event("e-3", "problem"), event("e-4", "waiting", "v-2")];
    for (const one of events) await transaction.objectStore("events").put(one);
  });
  await keepOutline("v-1", outline);
  const { rows } = await overview();
  equal(rows.map(({ visit: { id }, unsent, kept }) => ({ id, unsent, kept })), [
    { id: "v-2", unsent: 1, kept: null },
    { id: "v-1", unsent: 3, kept: { count: 3, outline } },
  ]);
  await keepOutline("v-1", { ...outline, settled: 4 });
  ok((await overview()).rows[1].kept?.outline?.settled === 3, "of the same basis there is one outline");
});
