"""A phone at the bench: what its visit needs, and a browser whose notices and screen are watched."""

SET_UNIT = """async ([plate, baseline]) => {
  const { transact } = await import("/static/record/database.js");
  const { units } = await import("/static/record/work.js");
  const all = await units();
  Object.assign(all[0].plate, plate);
  if (baseline) all[0].baseline = { record: "ab".repeat(32), values: baseline };
  await transact(["work"], "readwrite", (transaction) => transaction.objectStore("work").put(all, "units"));
}"""

START_SERVICE = """async (last) => {
  const { createVisit } = await import("/static/record/visits.js");
  const { addEvent } = await import("/static/record/events.js");
  const { transact } = await import("/static/record/database.js");
  const { id, version, hash } = await (await fetch("/field/service-1/procedure.json")).json();
  const begin = () => createVisit({ unit: "u-1", kind: "service", procedure: { id, version, hash } });
  if (last) {
    const before = await begin();
    const [field, content] = last;
    await addEvent({ visit: before.id, field, item: null, content });
    const done = { started_at: "2026-05-12T08:00:00.000Z", state: "accepted", record: "cd".repeat(32) };
    const signed = { ...before, ...done };
    await transact(["visits"], "readwrite", (transaction) => transaction.objectStore("visits").put(signed));
  }
  return (await begin()).id;
}"""

# The browser's own parts that leave the page: the phone's question, its notices, its screen.
WATCHED = """() => {
  window.told = [];
  window.held = 0;
  const requestPermission = async () => (Notification.permission = "granted");
  window.Notification = { permission: "default", requestPermission };
  const registration = Object.assign(new EventTarget(), {
    showNotification: async (title, { body, data }) => told.push([title, body, data.address]),
  });
  const serviceWorker = Object.assign(new EventTarget(), {
    controller: null,
    ready: new Promise(() => {}),
    register: async () => registration,
    getRegistration: async () => registration,
  });
  Object.defineProperty(navigator, "serviceWorker", { value: serviceWorker });
  const request = async () => {
    if (window.refuses) throw new DOMException("battery is low", "NotAllowedError");
    held += 1;
    const lock = new EventTarget();
    lock.release = async () => {
      held -= 1;
      lock.dispatchEvent(new Event("release"));
    };
    return lock;
  };
  Object.defineProperty(navigator, "wakeLock", { value: { request } });
}"""


def cell(value, unit):
    return {"value": value, "unit": unit, "typed": str(value)}


def set_unit(page, plate=None, baseline=None):
    """Change what the phone knows of its first unit."""
    page.evaluate(SET_UNIT, [plate or {}, baseline])
