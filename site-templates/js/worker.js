// Keeps the site for when there is no network. Registered only over http and https; every page works without it.
// The generator puts before this text: kept, the version of these files, and files, what is fetched at once.

const ours = `tenwinters ${self.registration.scope} `, name = ours + kept;

async function fetchAll() {
  const cache = await caches.open(name);
  await cache.addAll(files.map((file) => new Request(new URL(file, self.registration.scope), {cache: 'no-cache'})));
  await self.skipWaiting();
}

async function dropOlder() {
  for (const other of await caches.keys())
    if (other.startsWith(ours) && other !== name) await caches.delete(other);
  await self.clients.claim();
}

async function fromNetwork(request, cache) {
  const response = await fetch(request);
  if (response.ok) await cache.put(request, response.clone());
  return response;
}

// A name with its content's hash never changes; a page is asked for anew while there is a network.
async function answer(request) {
  const cache = await caches.open(name), known = await cache.match(request, {ignoreSearch: true});
  if (known && new URL(request.url).pathname.includes('/assets/')) return known;
  try {
    return await fromNetwork(request, cache);
  } catch (error) {
    if (known) return known;
    throw error;
  }
}

self.addEventListener('install', (event) => event.waitUntil(fetchAll()));
self.addEventListener('activate', (event) => event.waitUntil(dropOlder()));
self.addEventListener('fetch', (event) => {
  if (event.request.method === 'GET' && event.request.url.startsWith(self.registration.scope)) event.respondWith(answer(event.request));
});
