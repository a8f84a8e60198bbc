/** @type {Set<{element: Element, paint: () => void}>} */
const painted = new Set();

/**
 * Paint now and once a second as long as the element is on the page. What is painted comes from stored moments and
 * the clock, so that a phone that slept is right again at once.
 * @param {Element} element
 * @param {() => void} paint
 */
export function everySecond(element, paint) {
  paint();
  start();
  painted.add({ element, paint });
}

let begun = false;

/** One clock for the page, begun with the first that needs it. */
function start() {
  if (begun) return;
  begun = true;
  setInterval(tick, 1000);
  document.addEventListener("visibilitychange", tick);
  addEventListener("pageshow", tick);
}

function tick() {
  for (const one of painted) {
    if (one.element.isConnected) one.paint();
    else painted.delete(one);
  }
}
