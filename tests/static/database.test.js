import { closeDatabase, readSetting, StorageError, transact, writeSettings } from "/static/record/database.js";
import { equal, ok, rejects, test } from "./suite.js";

test("settings are read as they were written", async () => {
  await writeSettings({ one: { a: 1 }, two: "b" });
  equal([await readSetting("one"), await readSetting("two"), await readSetting("three")], [{ a: 1 }, "b", undefined]);
});

test("when the work fails nothing of it is stored, and its error comes through", async () => {
  class OwnError extends Error {
    code = "own";
  }
  const attempt = () =>
    transact(["settings"], "readwrite", async (transaction) => {
      await transaction.objectStore("settings").put("lost", "half");
      throw new OwnError("A reason.");
    });
  await rejects(attempt, OwnError, "own", /A reason/);
  equal(await readSetting("half"), undefined);
});

test("what cannot be stored is refused with a sentence", async () => {
  await rejects(() => writeSettings({ bad: () => {} }), StorageError, "storage_failed", /Reload the page and save again/);
  equal(await readSetting("bad"), undefined);
});

test("a closed connection is opened again", async () => {
  await writeSettings({ kept: 1 });
  await closeDatabase();
  equal(await readSetting("kept"), 1);
});

test("a connection that dies under way is replaced and the work is done once", async () => {
  let runs = 0;
  await transact(["settings"], "readwrite", async (transaction) => {
    runs += 1;
    if (runs === 1) throw new DOMException("Connection to Indexed Database server lost", "UnknownError");
    await transaction.objectStore("settings").put("second", "run");
  });
  equal([runs, await readSetting("run")], [2, "second"]);
});

test("a connection that stays dead is reported, not retried for ever", async () => {
  let runs = 0;
  const attempt = () =>
    transact(["settings"], "readwrite", async () => {
      runs += 1;
      throw new DOMException("Connection to Indexed Database server lost", "UnknownError");
    });
  await rejects(attempt, StorageError, "storage_failed", /Reload the page/);
  equal(runs, 2);
});

test("another window that upgrades the storage gets it at once, and this page says so", async () => {
  await readSetting("one");
  const told = new Promise((resolve) => addEventListener("firstwater:updated-elsewhere", resolve, { once: true }));
  const upgraded = new Promise((resolve, reject) => {
    const request = indexedDB.open("firstwater", 99);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("blocked"));
  });
  await told;
  const newer = await upgraded;
  await rejects(() => readSetting("one"), StorageError, "storage_failed", /Reload/);
  newer.close();
  await new Promise((resolve) => (indexedDB.deleteDatabase("firstwater").onsuccess = resolve));
  ok((await readSetting("one")) === undefined);
});
