import { LARGEST_LEAD, next, nodeOf, read, received, START, written } from "/static/record/clock.js";
import { equal, ok, test } from "./suite.js";

const A = "AAAAAAAA";

test("the trace of two clocks follows Kulkarni, Demirbas et al. 2014, figure 5", () => {
  let a = START;
  let b = START;
  const trace = [];
  for (const now of [1000, 1000, 998]) trace.push((a = next(a, now)));
  trace.push((b = received(b, a, 900)), (b = next(b, 905)), (b = next(b, 1001)));
  trace.push((a = received(a, b, 999)), (a = next(a, 1002)));
  const pairs = trace.map(({ time, count }) => [time, count]);
  // Worked through by hand from the figure's algorithm.
  equal(pairs, [[1000, 0], [1000, 1], [1000, 2], [1000, 3], [1000, 4], [1001, 0], [1001, 1], [1002, 0]]);
});

test("a clock set back does not go back", () => {
  const before = next(START, 5000);
  const after = next(before, 1000);
  ok(written(after, A) > written(before, A));
});

test("a time more than five minutes ahead does not move the clock", () => {
  const now = 1_000_000;
  const state = next(START, now);
  equal(received(state, { time: now + LARGEST_LEAD + 1, count: 0 }, now), state);
  equal(received(state, { time: now + LARGEST_LEAD, count: 7 }, now), { time: now + LARGEST_LEAD, count: 8 });
});

test("the written time sorts as text in the order in which it was given", () => {
  const texts = [];
  let state = START;
  for (const now of [0, 0, 0, 9, 9, 10, 99, 98, 1_700_000_000_000]) texts.push(written((state = next(state, now)), A));
  equal(texts.toSorted(), texts);
});

test("a full counter carries into the time", () => {
  const full = { time: 1000, count: 0xffff };
  equal(next(full, 1000), { time: 1001, count: 0 });
});

test("what is written is read back, whatever the node", () => {
  const state = { time: Date.parse("2026-11-25T09:30:00.000Z"), count: 0x1a };
  equal(written(state, "a-b_c-dE"), "2026-11-25T09:30:00.000Z-001a-a-b_c-dE");
  equal(read("2026-11-25T09:30:00.000Z-001a-a-b_c-dE"), state);
});

test("the node is the beginning of the thumbprint", () => {
  equal(nodeOf("oKIywvGUpTVTyxMQ3bwIIeQUudfr_CkLMjCE19ECD-U"), "oKIywvGU");
});
