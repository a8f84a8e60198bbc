// The little that a suite needs: named tests, a few assertions, and a report that the starter reads.

/** @type {{name: string, run: () => unknown}[]} */
const tests = [];

/** @param {string} name a statement about behaviour @param {() => unknown} run */
export function test(name, run) {
  tests.push({ name, run });
}

/** @param {unknown} actual @param {unknown} expected */
export function equal(actual, expected) {
  const [left, right] = [show(actual), show(expected)];
  if (left !== right) throw new Error(`\n  is       ${left}\n  expected ${right}`);
}

/** @param {unknown} value @param {string} [what] */
export function ok(value, what = "true") {
  if (!value) throw new Error(`${show(value)} is not ${what}`);
}

/**
 * The promise rejects with an error of this class whose code and sentence are as stated.
 * @param {() => Promise<unknown>} attempt @param {new (...parts: any) => Error} type @param {string} code @param {RegExp} sentence
 */
export async function rejects(attempt, type, code, sentence) {
  const error = await attempt().then(
    (value) => new Error(`resolved with ${show(value)}`),
    (reason) => reason,
  );
  if (!(error instanceof type)) throw new Error(`${error} is not a ${type.name}`);
  equal(/** @type {any} */ (error).code, code);
  ok(sentence.test(error.message), `a sentence like ${sentence}: ${error.message}`);
}

/** @param {unknown} value */
function show(value) {
  return JSON.stringify(value, (_, part) => (part === undefined ? "undefined" : part));
}

/** @param {string} suite file name */
async function runSuite(suite) {
  await import(`./${suite}`);
  const results = [];
  for (const { name, run } of tests) {
    try {
      await run();
      results.push({ name, problem: null });
    } catch (error) {
      results.push({ name, problem: String(/** @type {Error} */ (error).stack ?? error) });
    }
  }
  return results;
}

Object.assign(window, { runSuite });
