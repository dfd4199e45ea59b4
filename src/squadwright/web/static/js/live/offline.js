// The worker that opens this page without a server; the files loaded before it are told to it.
const NOT_KEPT =
  "This device does not trust the address yet, so this page cannot be opened again without the server. Leave it open.";

export async function keepForFlightMode(told) {
  if (!("serviceWorker" in navigator)) {
    told.textContent = NOT_KEPT;
    return;
  }
  try {
    await navigator.serviceWorker.register("/service-worker.js");
  } catch {
    // A certificate that was only waved through. Without a server the worker is there already.
    if (!navigator.serviceWorker.controller) told.textContent = NOT_KEPT;
    return;
  }
  const ready = await navigator.serviceWorker.ready;
  const files = performance
    .getEntriesByType("resource")
    .map((entry) => new URL(entry.name).pathname)
    .filter((path) => path.startsWith("/static/"));
  ready.active.postMessage({ keep: [location.pathname, ...new Set(files)] });
}
