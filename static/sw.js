// Keeps the app's files and field pages on the phone. Records and photos are not here but in IndexedDB, so that no rule
// about files can ever delete one. The server writes the three constants: BUILD; of each file its address, its
// integrity and the parcel that brings it, or "" where it comes alone; and the same of what is kept once it was asked
// for, and does not belong to one build.
const BUILD = "";
/** @type {[address: string, integrity: string, parcel: string][]} */
const FILES = [];
/** What asks for the language of this worker's pages, written by the server as well; "" for English. */
const QUERY = "";
/** @type {[address: string, integrity: string][]} */
const OPTIONAL = [];

const PREFIX = "app-";
const CACHE = PREFIX + BUILD;
const OPTIONAL_PREFIX = "optional-";
const OPTIONAL_CACHE = OPTIONAL_PREFIX + OPTIONAL.map(([, integrity]) => integrity.slice(7, 19)).join("-");
const OFFLINE_PAGE = "/field/offline";
// Fewer than these are fetched one by one, unless they are half of a parcel: it would bring again what has not changed.
const WORTH_A_PARCEL = 8;
const AT_ONCE = 6;

/** @typedef {[address: string, integrity: string, parcel: string]} KeptFile */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));

/** Whether a page's values live on this phone, so that the kept page serves every query. @param {URL} url */
function isFieldPage(url) {
  return /^\/(field|calculator)(\/|$)/.test(url.pathname);
}

/**
 * What this build keeps for an address, whatever its query.
 * By address and not with `ignoreSearch`, for which Chromium looks through the whole cache each time.
 * @param {string} address
 */
function kept(address) {
  // With `cacheName`: opening the cache by name would make it again after somebody removed it.
  return caches.match(new URL(address, location.origin).pathname, { cacheName: CACHE, ignoreVary: true });
}

/** @param {ArrayBuffer} bytes */
async function integrityOf(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return "sha256-" + btoa(String.fromCharCode(...digest));
}

/** @param {Response | undefined} response @param {string} integrity */
async function isWhole(response, integrity) {
  return response !== undefined && (await integrityOf(await response.clone().arrayBuffer())) === integrity;
}

/**
 * A copy of the same bytes from an earlier build. Pages are always fetched: their headers belong to them.
 * @param {Cache} cache
 * @param {KeptFile} file
 */
async function takeOver(cache, [address, integrity]) {
  const earlier = /^\/static\/|\.json$/.test(address) && (await caches.match(address, { ignoreVary: true }));
  if (!earlier || !(await isWhole(earlier, integrity))) return false;
  await cache.put(address, earlier);
  return true;
}

/**
 * Whether a file is in its place, from a try that was cut off or from an earlier build. Its bytes are read: after a
 * failed try WebKit has reported an entry as stored that was not there.
 * @param {Cache} cache
 * @param {KeptFile} file
 */
async function isHere(cache, file) {
  const [address, integrity] = file;
  const found = await cache.match(address, { ignoreVary: true });
  return (await isWhole(found, integrity)) || takeOver(cache, file);
}

/** @template T @param {T[]} things @param {(thing: T) => Promise<unknown>} take a few at the same time */
async function each(things, take) {
  const left = [...things];
  const lane = async () => {
    for (let next = left.shift(); next !== undefined; next = left.shift()) await take(next);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
}

/** Without credentials: the page of a signed-in person has their name in it. @param {string} address @param {string} [integrity] */
async function fetchFresh(address, integrity) {
  const asked = address.startsWith("/static/") ? address : address + QUERY;
  const response = await fetch(asked, { cache: "reload", credentials: "omit", integrity, redirect: "error" });
  if (!response.ok) throw new Error(`${address} answered ${response.status}`);
  return response;
}

/**
 * Many files in one answer, each with the headers that it has alone. Only what FILES names, byte for byte, is stored.
 * @param {Cache} cache
 * @param {string} parcel
 * @param {KeptFile[]} wanted
 */
async function unpack(cache, parcel, wanted) {
  const { files } = await (await fetchFresh(parcel)).json();
  await each(wanted, async ([address, integrity]) => {
    const { headers, text } = files[address] ?? {};
    const response = new Response(text, { headers });
    if (await isWhole(response, integrity)) await cache.put(address, response);
  });
}

/** How far the installation is, for the page that waits for it. @param {number} lacking */
async function tell(lacking) {
  const pages = await worker.clients.matchAll({ includeUncontrolled: true });
  for (const page of pages) page.postMessage({ build: BUILD, kept: FILES.length - lacking, of: FILES.length });
}

/** @param {Cache} cache @param {KeptFile[]} files @returns {Promise<KeptFile[]>} */
async function lackingOf(cache, files) {
  const here = new Set();
  await each(files, async (file) => (await isHere(cache, file)) && here.add(file));
  const lacking = files.filter((file) => !here.has(file));
  await tell(lacking.length);
  return lacking;
}

/**
 * All files of this build or none: rejecting leaves the build that is in use in its place. Nothing of the new one is
 * served before everything is there. What has arrived stays, so that a next try goes on where this one was cut off.
 */
async function install() {
  const cache = await caches.open(CACHE);
  let lacking = await lackingOf(cache, FILES);
  for (const parcel of new Set(lacking.map(([, , parcel]) => parcel))) {
    const wanted = lacking.filter((file) => file[2] === parcel);
    const whole = FILES.filter((file) => file[2] === parcel);
    if (parcel === "" || wanted.length < Math.min(WORTH_A_PARCEL, whole.length / 2)) continue;
    await unpack(cache, parcel, wanted);
    lacking = await lackingOf(cache, lacking);
  }
  await each(lacking, async ([address, integrity]) => cache.put(address, await fetchFresh(address, integrity)));
  const [missing] = await lackingOf(cache, lacking);
  if (missing) throw new Error(`${missing[0]} was not stored`);
}

async function removeEarlierBuilds() {
  for (const name of await caches.keys()) {
    const isEarlier = name.startsWith(PREFIX) && name !== CACHE;
    if (isEarlier || (name.startsWith(OPTIONAL_PREFIX) && name !== OPTIONAL_CACHE)) await caches.delete(name);
  }
}

/**
 * One of the optional files: as it is kept, else fetched, verified and kept from then on.
 * @param {string} address
 * @param {string} integrity
 */
async function optionalFile(address, integrity) {
  const here = await caches.match(address, { cacheName: OPTIONAL_CACHE, ignoreVary: true });
  if (here) return here;
  const response = await fetchFresh(address, integrity);
  const cache = await caches.open(OPTIONAL_CACHE);
  // Answered even if the phone has no room to keep it.
  await cache.put(address, response.clone()).catch(() => undefined);
  return response;
}

/** Whether all optional files are here now; a page asks for it while there is signal. @param {MessagePort} asker */
async function keepOptional(asker) {
  try {
    for (const [address, integrity] of OPTIONAL) await optionalFile(address, integrity);
    asker.postMessage({ kept: true });
  } catch (error) {
    asker.postMessage({ kept: false, because: String(error) });
  }
}

/** @param {Request} request */
async function answerPage(request) {
  const page = isFieldPage(new URL(request.url)) ? await kept(request.url) : undefined;
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
  const optional = OPTIONAL.find(([address]) => address === new URL(request.url).pathname);
  if (optional) return optionalFile(...optional);
  return (await kept(request.url)) ?? fetch(request);
}

worker.addEventListener("install", (event) => event.waitUntil(install()));

worker.addEventListener("activate", (event) => event.waitUntil(removeEarlierBuilds()));

// Taking over under an open form could break it: only a person's consent, sent by the page, ends the waiting.
worker.addEventListener("message", (event) => {
  if (event.data === "activate-now") worker.skipWaiting();
  if (event.data === "keep-optional") event.waitUntil(keepOptional(event.ports[0]));
});

/** The step that a notice is about: in the window that is open there, else in a new one. @param {string} address */
async function openStep(address) {
  const windows = await worker.clients.matchAll({ type: "window", includeUncontrolled: true });
  const there = windows.find((window) => window.url === new URL(address, location.origin).href);
  await (there ? there.focus() : worker.clients.openWindow(address));
}

worker.addEventListener("notificationclick", (event) => {
  event.notification.close();
  event.waitUntil(openStep(event.notification.data.address));
});

worker.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin || url.pathname.startsWith("/api/")) return;
  event.respondWith(event.request.mode === "navigate" ? answerPage(event.request) : answerFile(event.request));
});
