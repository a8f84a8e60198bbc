// Keeps the app's files and field pages on the phone. Records and photos are not here but in IndexedDB, so that no rule
// about files can ever delete one. The server writes the two constants: BUILD, and [address, integrity] of each file.
const BUILD = "";
/** @type {[address: string, integrity: string][]} */
const FILES = [];

const PREFIX = "app-";
const CACHE = PREFIX + BUILD;
const OFFLINE_PAGE = "/field/offline";

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

/** Whether a page's values live on this phone, so that the kept page serves every query. @param {URL} url */
function isFieldPage(url) {
  return /^\/(field|calculator)(\/|$)/.test(url.pathname);
}

/** @param {Request | string} request */
function kept(request) {
  // With `cacheName`: opening the cache by name would make it again after somebody removed it.
  return caches.match(request, { cacheName: CACHE, ignoreSearch: true, ignoreVary: true });
}

/** @param {ArrayBuffer} bytes */
async function integrityOf(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return "sha256-" + btoa(String.fromCharCode(...digest));
}

/**
 * A copy of the same bytes from an earlier build. Pages are always fetched: their headers belong to them.
 * @param {string} address
 * @param {string} integrity
 */
async function unchanged(address, integrity) {
  const earlier = address.startsWith("/static/") && (await caches.match(address, { ignoreVary: true }));
  if (!earlier) return null;
  const bytes = await earlier.arrayBuffer();
  return (await integrityOf(bytes)) === integrity ? new Response(bytes, { headers: earlier.headers }) : null;
}

/**
 * The file as FILES names it, byte for byte.
 * @param {[address: string, integrity: string]} file
 */
async function verified([address, integrity]) {
  const earlier = await unchanged(address, integrity);
  if (earlier) return earlier;
  // Without credentials: the page of a signed-in person has their name in it.
  const response = await fetch(address, { cache: "reload", credentials: "omit", integrity, redirect: "error" });
  if (!response.ok) throw new Error(`${address} answered ${response.status}`);
  return response;
}

/**
 * All files of this build or none: rejecting leaves the build that is in use in its place.
 * Everything is verified before the first write, and looked for after the last one: after a failed try WebKit has
 * reported an entry as stored that was not there.
 */
async function install() {
  const responses = await Promise.all(FILES.map(verified));
  await caches.delete(CACHE);
  const cache = await caches.open(CACHE);
  for (const [index, [address]] of FILES.entries()) await cache.put(address, responses[index]);
  for (const [address] of FILES) {
    if (!(await cache.match(address, { ignoreVary: true }))) throw new Error(`${address} was not stored`);
  }
}

async function removeEarlierBuilds() {
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
  }
}

/** @param {Request} request */
async function answerPage(request) {
  const page = isFieldPage(new URL(request.url)) ? await kept(request) : undefined;
  if (page) return page;
  try {
    return await fetch(request);
  } catch (error) {
    const offline = await kept(OFFLINE_PAGE);
    if (offline) return offline;
    throw error;
  }
}

/** @param {Request} request */
async function answerFile(request) {
  return (await kept(request)) ?? fetch(request);
}

worker.addEventListener("install", (event) => event.waitUntil(install()));

worker.addEventListener("activate", (event) => event.waitUntil(removeEarlierBuilds()));

// Taking over under an open form could break it: only a person's consent, sent by the page, ends the waiting.
worker.addEventListener("message", (event) => {
  if (event.data === "activate-now") worker.skipWaiting();
});

worker.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin || url.pathname.startsWith("/api/")) return;
  event.respondWith(event.request.mode === "navigate" ? answerPage(event.request) : answerFile(event.request));
});
