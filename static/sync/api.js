import { phrase } from "../language/phrase.js";
import { writeSettings } from "../record/database.js";

const TIME_LIMIT = 30_000;
const TIME_LIMIT_PHOTO = 120_000;
const TRY_LATER = [403, 408, 425, 429];
export const LONGEST_WAIT = 3_600_000;

/**
 * The server did not take or give something. Whatever was to be sent is still on this phone.
 *
 * `kind` says what follows: `offline` (no answer that can be trusted: try again later), `signed_out` (sign in),
 * `later` (the server asks to come back), `refused` (it will not take this as it is).
 */
export class ApiError extends Error {
  /**
   * @param {"offline" | "signed_out" | "later" | "refused"} kind
   * @param {string} code
   * @param {string} sentence
   * @param {number} [wait] milliseconds for which the server wants to be left alone
   */
  constructor(kind, code, sentence, wait = 0) {
    super(sentence);
    this.name = "ApiError";
    this.kind = kind;
    this.code = code;
    this.wait = wait;
  }
}

/** Lives as long as the page: a token in storage or in a cached page would be worthless after signing in again. */
let csrf = "";

/**
 * @param {string} path
 * @param {RequestInit & {limit?: number}} options
 */
async function fetchOurs(path, { limit = TIME_LIMIT, ...options }) {
  try {
    // A redirect is an answer of somebody else: a sign-in page of the network would count as received.
    return await fetch(path, {
      cache: "no-store",
      credentials: "same-origin",
      redirect: "error",
      signal: AbortSignal.timeout(limit),
      ...options,
    });
  } catch (error) {
    throw new ApiError("offline", "no_answer", phrase("The server does not answer. Everything is kept on this phone."));
  }
}

/** @param {Response} response */
async function json(response) {
  const type = response.headers.get("Content-Type") ?? "";
  if (!/^application\/(problem\+)?json\b/.test(type)) throw notOurServer();
  return response.json().catch(() => {
    throw notOurServer();
  });
}

function notOurServer() {
  return new ApiError(
    "offline",
    "not_our_server",
    phrase("Something else than the server answered, perhaps the sign-in page of this Wi-Fi. Everything is kept on this phone."),
  );
}

/** The Retry-After of an answer (RFC 9110, 10.2.3) in milliseconds: seconds or a date; 0 without one. @param {Response} response */
function waitOf(response) {
  const text = response.headers.get("Retry-After") ?? "";
  const wait = /^[0-9]+$/.test(text) ? Number(text) * 1000 : Date.parse(text) - Date.now();
  return wait > 0 ? Math.min(wait, LONGEST_WAIT) : 0;
}

/** @param {Response} response @param {any} problem an RFC 9457 problem */
function asError(response, problem) {
  const { status } = response;
  const code = problem.code ?? `status_${status}`;
  const sentence = problem.detail ?? problem.title ?? phrase("The server answered {status}.", { status });
  if (status === 401) {
    return new ApiError("signed_out", code, phrase("Sign in again to send. Nothing is lost: everything is kept on this phone."));
  }
  if (status >= 500 || TRY_LATER.includes(status)) return new ApiError("later", code, sentence, waitOf(response));
  return new ApiError("refused", code, sentence);
}

/**
 * @param {string} path
 * @param {RequestInit & {limit?: number}} options
 */
async function call(path, options) {
  const response = await fetchOurs(path, options);
  const answer = await json(response);
  if (!response.ok) throw asError(response, answer);
  return answer;
}

/**
 * Ask the server who is signed in; also gives the token for sending and how far the phone's clock is off
 * (RFC 5905: the server's time against the middle of the call).
 * @returns {Promise<Session>}
 */
export async function openSession() {
  const before = Date.now();
  /** @type {Session} */
  const session = await call("/api/session", {});
  const after = Date.now();
  csrf = session.csrf;
  await writeSettings({ clockOffset: Date.parse(session.server_time) - (before + after) / 2 });
  return session;
}

/** @param {string} path @returns {Promise<any>} */
export function get(path) {
  return call(path, {});
}

/**
 * What is at `path` now, with the tag that names it; null when that is still what `tag` names.
 * @param {string} path
 * @param {string | null} tag
 * @returns {Promise<{answer: any, tag: string | null} | null>}
 */
export async function getNews(path, tag) {
  const response = await fetchOurs(path, { headers: tag ? { "If-None-Match": tag } : {} });
  if (tag && response.status === 304) return null;
  const answer = await json(response);
  if (!response.ok) throw asError(response, answer);
  return { answer, tag: response.headers.get("ETag") };
}

/**
 * @param {string} path
 * @param {RequestInit & {limit?: number}} options
 */
async function change(path, options) {
  const send = () =>
    call(path, { ...options, headers: { ...options.headers, "X-CSRFToken": csrf, Accept: "application/json" } });
  try {
    return await send();
  } catch (error) {
    if (!(error instanceof ApiError) || error.code !== "csrf") throw error;
  }
  await openSession();
  return send();
}

/** @param {string} path @param {unknown} body @returns {Promise<any>} */
export function post(path, body) {
  return change(path, { method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json" } });
}

/**
 * @param {string} path
 * @param {ArrayBuffer} bytes
 * @param {Record<string, string>} [headers]
 * @returns {Promise<any>}
 */
export function putPhoto(path, bytes, headers = {}) {
  return change(path, {
    method: "PUT",
    body: bytes,
    headers: { "Content-Type": "image/jpeg", ...headers },
    limit: TIME_LIMIT_PHOTO,
  });
}
