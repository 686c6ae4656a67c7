/**
 * Keeps the built page at hand, so that it opens in a garage without network. The build writes its number and the names
 * of its files into the next line; another build makes another worker, and that fetches its own files.
 */
const BUILD = { number: '', files: [] };

const PREFIX = 'dashloom-build-';
/** A page that the network has not brought by then comes from what is kept, ms. */
const PATIENCE_MS = 3000;

self.addEventListener('install', (event) => event.waitUntil(install()));
self.addEventListener('activate', (event) => event.waitUntil(activate()));
self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  event.respondWith(request.mode === 'navigate' ? page(request) : file(request));
});

async function install() {
  const kept = await caches.open(PREFIX + BUILD.number);
  await kept.addAll(BUILD.files.map((name) => new Request(name, { cache: 'no-cache' })));
  // One window alone came from the network just now, or may well go on with the files of the build before.
  if ((await self.clients.matchAll({ includeUncontrolled: true })).length <= 1) await self.skipWaiting();
}

/** The build before this one stays until the next: a page still open may want a piece of it. */
async function activate() {
  const others = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== PREFIX + BUILD.number);
  await Promise.all(others.slice(0, -1).map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** The page itself: as the network has it now, so that a new build shows at once; without network as it was kept. */
async function page(request) {
  const network = fetch(request);
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE_MS));
  const answer = await Promise.race([network.catch(() => undefined), late]);
  return answer ?? (await (await caches.open(PREFIX + BUILD.number)).match('./', { ignoreVary: true })) ?? network;
}

/** A file of the build bears its contents in its name: what is kept is right. */
async function file(request) {
  // Servers say that an answer varies with who asks; these do not.
  const any = { ignoreVary: true };
  const own = await (await caches.open(PREFIX + BUILD.number)).match(request, any);
  return own ?? (await caches.match(request, any)) ?? fetch(request);
}
