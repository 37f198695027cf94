/* eslint-disable @typescript-eslint/ban-ts-comment -- a service worker's names are not among the page's types */
// @ts-nocheck
// The service worker of the built app: every file of one version, so that all screens work without
// a network. The plugin beside this file writes VERSION and FILES in front of it.
/* global VERSION, FILES */

const PREFIX = 'hypocentre-';
const CACHE = PREFIX + VERSION;

self.addEventListener('install', (event) => event.waitUntil(keepFiles()));

async function keepFiles() {
  const cache = await caches.open(CACHE);
  // Past the browser's own cache: the files of one version belong together.
  await cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })));
}

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches.keys().then(async (names) => {
      const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
      // The version before stays: a tab that still shows it may ask for its parts.
      for (const name of old.slice(0, -1)) await caches.delete(name);
      await self.clients.claim();
    }),
  );
});

self.addEventListener('message', (event) => {
  if (event.data === 'take-over') void self.skipWaiting();
  // Everything was deleted, and the log is begun anew in the same page.
  if (event.data === 'keep-files') event.waitUntil(keepFiles());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  event.respondWith(answer(request));
});

async function answer(request) {
  const cache = await caches.open(CACHE);
  if (request.mode === 'navigate') {
    const page = await cache.match('./index.html', { ignoreVary: true });
    if (page) return page;
  }
  const found =
    (await cache.match(request, { ignoreVary: true })) ??
    (await caches.match(request, { ignoreVary: true }));
  return found ?? fetch(request);
}
