// Keeps the floor of a session, or a day of competition, and everything it needs on the device, so
// that it opens in flight mode. Pages come from the server while it answers; static files never change at their address.
const CACHE = "squadwright-floor-1";
const PATIENCE_MS = 2500;
const PAGES = /^\/(live\/[^/]+(\/wall|\/sheet\.json)?|camp\/event-day\/[\d-]+)$/;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || address.origin !== self.location.origin) return;
  if (address.pathname.startsWith("/static/")) event.respondWith(fromCacheFirst(event.request));
  else if (PAGES.test(address.pathname)) {
    event.respondWith(fromServerFirst(event.request, address.pathname));
  }
});

async function fromCacheFirst(request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request);
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) await cache.put(request, answer.clone());
  return answer;
}

async function fromServerFirst(request, path) {
  const cache = await caches.open(CACHE);
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
    if (answer.ok) await cache.put(path, answer.clone());
    return answer;
  } catch (error) {
    const kept = await cache.match(path);
    if (kept) return kept;
    throw error;
  }
}

// A page tells which files it has loaded already, before this worker was there to see them. One
// that was on its way while the worker woke up was claimed by nobody: it is claimed now.
self.addEventListener("message", (event) => {
  event.waitUntil(Promise.all([self.clients.claim(), keepAll(event.data.keep)]));
});

async function keepAll(paths) {
  const cache = await caches.open(CACHE);
  await Promise.all(
    paths.map(async (path) => {
      if (await cache.match(path)) return;
      const answer = await fetch(path, { cache: "no-store" });
      if (answer.ok) await cache.put(path, answer);
    }),
  );
}
