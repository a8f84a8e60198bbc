import { phrase } from "../language/phrase.js";

/** The server did not take it; the sentence says what to do. */
class RequestError extends Error {
  /** @param {string} code @param {string} sentence */
  constructor(code, sentence) {
    super(sentence);
    this.name = "RequestError";
    this.code = code;
  }
}

/**
 * Send JSON with the form token of the page: before the sign-in there is no session that could give one.
 * @param {string} path
 * @param {unknown} body
 * @returns {Promise<any>}
 */
export async function ask(path, body) {
  const token = /** @type {HTMLInputElement} */ (document.querySelector("main input[name=csrf_token]")).value;
  const headers = { "Content-Type": "application/json", Accept: "application/json", "X-CSRFToken": token };
  let answer;
  try {
    const response = await fetch(path, { method: "POST", redirect: "error", headers, body: JSON.stringify(body) });
    answer = { ok: response.ok, content: await response.json() };
  } catch {
    throw new RequestError("no_answer", phrase("The server does not answer. Try again where there is signal."));
  }
  if (!answer.ok) throw new RequestError(answer.content.code, `${answer.content.title}. ${answer.content.detail}`);
  return answer.content;
}
