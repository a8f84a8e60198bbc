import { Followers, nearness, painted } from "/static/parts/after-paint.js";
import { draw, redraw } from "/static/parts/element.js";
import { StoredEvents } from "/static/parts/stored-events.js";
import { equal, ok, test } from "./suite.js";

const event = (/** @type {any} */ about) => ({ field: "a.b", item: null, replaces: [], hlc: about.id, ...about });

/** @param {() => unknown} work */
async function hidden(work) {
  Object.defineProperty(document, "visibilityState", { value: "hidden", configurable: true });
  try {
    return await work();
  } finally {
    Reflect.deleteProperty(document, "visibilityState");
  }
}

test("what follows a keystroke comes after the paint, each job once, whatever was asked in between", async () => {
  const followers = new Followers();
  /** @type {string[]} */
  const done = [];
  const [first, second] = [() => done.push("first"), () => done.push("second")];
  followers.ask([first, second]);
  followers.ask([first]);
  requestAnimationFrame(() => done.push("frame"));
  equal(done, []);
  await painted();
  await painted();
  equal(done, ["frame", "second", "first"]);
});

test("a job that is asked for again while others run has seen what they saw last", async () => {
  const followers = new Followers();
  let [value, seen] = [1, 0];
  const look = () => (seen = value);
  followers.ask([look, () => { if (value === 1) followers.ask([look]); value = 2; }]);
  await painted();
  await painted();
  equal(seen, 2);
});

test("a page that is not shown, and so never painted, does what follows all the same", async () => {
  let isDone = false;
  await hidden(async () => {
    new Followers().ask([() => (isDone = true)]);
    await new Promise((resolve) => setTimeout(resolve));
  });
  ok(isDone);
});

test("what is far from the screen is not near, unless it is being typed in", async () => {
  const [here, far, input] = [document.createElement("div"), document.createElement("div"), document.createElement("input")];
  far.style.marginTop = "300vh";
  here.append("on the screen");
  far.append(input);
  document.body.append(here, far);
  const [isHere, isFar] = [nearness(here), nearness(far)];
  equal([isHere(), isFar()], [true, true]);
  await painted();
  await painted();
  equal([isHere(), isFar()], [true, false]);
  input.focus({ preventScroll: true });
  ok(isFar());
  here.remove();
  far.remove();
});

test("a drawing of the same shape changes in its place, one of another shape is put in its stead", () => {
  const sheet = (/** @type {string} */ x, /** @type {string[]} */ ...words) => draw("svg", {}, draw("line", { x1: x }), ...words.map((word) => draw("text", {}, word)));
  const place = document.createElement("div");
  place.append(sheet("1", "low"));
  const line = place.querySelector("line");
  redraw(/** @type {ChildNode} */ (place.firstChild), sheet("2", "high"));
  equal(place.innerHTML, sheet("2", "high").outerHTML);
  ok(line === place.querySelector("line"));
  redraw(/** @type {ChildNode} */ (place.firstChild), sheet("2", "high", "higher"));
  equal(place.innerHTML, sheet("2", "high", "higher").outerHTML);
});

test("what is current stays the same list until an event comes, whatever place that has", () => {
  const stored = new StoredEvents(/** @type {any} */ ([event({ id: "1" }), event({ id: "2", item: "x" })]));
  const before = stored.current("a.b", null);
  ok(before === stored.current("a.b", null));
  stored.add(/** @type {any} */ ([event({ id: "3", replaces: ["1"] }), event({ id: "3", replaces: ["1"] })]));
  equal(stored.current("a.b", null).map(({ id }) => id), ["3"]);
  equal(stored.current("a.b", "x").map(({ id }) => id), ["2"]);
  equal(stored.inOrder().map(({ id }) => id), ["1", "2", "3"]);
});
