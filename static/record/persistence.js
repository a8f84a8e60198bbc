import { readSetting, writeSettings } from "./database.js";

let hasAsked = false;

async function ask() {
  if (!navigator.storage?.persist) return;
  const isKept = (await navigator.storage.persisted()) || (await navigator.storage.persist());
  if (isKept !== (await readSetting("persisted"))) await writeSettings({ persisted: isKept });
}

/**
 * Ask the browser, once per page, not to clear this app's storage when the phone runs short; keeps the answer as the
 * setting `persisted`. Returns at once: some browsers ask the person and do not answer before the person does.
 */
export function askToKeep() {
  if (hasAsked) return;
  hasAsked = true;
  ask().catch((error) => console.warn("storage.persist", error));
}
