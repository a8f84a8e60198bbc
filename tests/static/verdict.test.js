import { ruleWords } from "/static/parts/verdict.js";
import { equal, ok, test } from "./suite.js";

const RULE = { kind: "limit", strict: false, entry: "relief.opening" };
const SESSION = /** @type {any} */ ({ judgement: { quantities: {}, rules: {} }, labels: { reason: () => "The uncertainty is too large.", withPlace: () => "" } });
const JUDGED = { verdict: "pass", reading: 2.46, expanded: 0.01, lower: 2.4, upper: 2.52, accept_lower: 2.41, accept_upper: 2.51, margin: 0.05, unit: "bar", missing: [], reasons: [] };

test("a reading is told with its limit and with what passes once the uncertainty is counted", () => {
  const words = ruleWords(RULE, JUDGED, SESSION);
  ok(words.includes("Limit: 2.4 to 2.52 bar."), words);
  ok(words.includes("With the uncertainty counted, 2.41 to 2.51 bar passes."), words);
});

test("an uncertainty is never told smaller, an interval never wider", () => {
  const words = ruleWords(RULE, { ...JUDGED, expanded: 0.04109, lower: 2.39001, upper: 2.52038, accept_lower: null, accept_upper: null }, SESSION);
  ok(words.includes("± 0.042 bar"), words);
  ok(words.includes("Limit: 2.391 to 2.52 bar."), words);
});

test("where the instrument leaves no reading that passes, no interval is told", () => {
  const judged = { ...JUDGED, verdict: "instrument_not_good_enough", expanded: 0.41, accept_lower: 2.81, accept_upper: 2.11, margin: null, reasons: [{ code: "uncertainty_too_large" }] };
  equal(ruleWords(RULE, judged, SESSION), "2.46 bar ± 0.41 bar. Limit: 2.4 to 2.52 bar. The uncertainty is too large.");
});
