// The service worker: it keeps one whole build of the page on the device, so
// that the page opens without a connection. The build writes the list of its
// files and a version that changes with any of them, or with this script.
'use strict';

const VERSION = '{{version}}';
const PREFIX = 'keelrow-';
const CACHE = PREFIX + VERSION;

// Names with the digest of their content: the page itself first, as './'.
const FILES = new Map({{files}});

const MISSING = '<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">' +
  '<title>Keelrow</title><h1>Keelrow</h1><p>The copy of this page on your device is no longer complete. ' +
  'Connect once and open the same link again; the link holds your job.</p>';

const address = (name) => new URL(name, registration.scope).href;

// A file is taken as what this build wrote, or not at all. The page is asked
// for anew, because its name says nothing of its content.
const asked = (name) => new Request(address(name), { integrity: FILES.get(name), cache: name === './' ? 'no-cache' : 'default' });

const kept = async (name) => (await caches.open(CACHE)).match(address(name), { ignoreVary: true });

// Whether a copy is what this build wrote.
async function sound(name, response) {
  const sum = await crypto.subtle.digest('SHA-256', await response.clone().arrayBuffer());
  return FILES.get(name) === 'sha256-' + btoa(String.fromCharCode(...new Uint8Array(sum)));
}

// All files are kept or none. A cache that was there before belongs to a
// worker that is in use.
async function keep() {
  const there = await caches.has(CACHE);
  try {
    const cache = await caches.open(CACHE);
    await cache.addAll([...FILES.keys()].map(asked));
  } catch (error) {
    if (!there) await caches.delete(CACHE);
    throw error;
  }
}

// Fetches what has gone from the cache, or is damaged there, and says how many
// files that were.
async function mend() {
  const cache = await caches.open(CACHE);
  const lost = [];
  for (const name of FILES.keys()) {
    const response = await kept(name);
    if (response && await sound(name, response)) continue;
    lost.push(name);
    await cache.delete(address(name));
  }
  await cache.addAll(lost.map(asked));
  return lost.length;
}

// Earlier builds go, and nothing that is not ours. While a later one is being
// kept its cache is left alone, and the next worker tidies up.
async function tidy() {
  if (registration.installing) return;
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
  }
}

// The page that is gone from the cache is taken as the server has it, when
// that is another build by now.
async function page(request) {
  try {
    return await file('./');
  } catch {
    // It is neither here nor there.
  }
  try {
    return await fetch(request);
  } catch {
    return new Response(MISSING, { status: 503, headers: { 'Content-Type': 'text/html; charset=utf-8' } });
  }
}

// A file that has gone from the cache is fetched, and kept again; so is one
// that is damaged there. The programs are large and their damage shows by
// itself: the page has them mended then.
async function file(name) {
  const response = await kept(name);
  if (response && (name.endsWith('.wasm') || await sound(name, response))) return response;
  const fetched = await fetch(asked(name));
  if (fetched.ok) {
    const copy = fetched.clone();
    caches.open(CACHE).then((cache) => cache.put(address(name), copy)).catch(() => {});
  }
  return fetched;
}

// Only a worker without a forerunner takes over pages that are open: nobody
// is at work with another build then.
let first = false;

addEventListener('install', (event) => {
  first = !registration.active;
  event.waitUntil(keep());
});

addEventListener('activate', (event) => {
  event.waitUntil(tidy().then(() => first && clients.claim()));
});

addEventListener('message', (event) => {
  if (event.data === 'use-new-version') event.waitUntil(skipWaiting());
  if (event.data === 'mend' && event.ports.length) {
    const answer = (mended) => event.ports[0].postMessage({ mended, version: VERSION });
    event.waitUntil(mend().then(answer, () => answer(-1)));
  }
});

addEventListener('fetch', (event) => {
  const { request } = event;
  const base = address('./');
  const [bare] = request.url.split(/[?#]/);
  if (request.method !== 'GET' || !bare.startsWith(base)) return;
  const name = bare.slice(base.length);
  if (request.mode === 'navigate') {
    if (name === '' || name === 'index.html') event.respondWith(page(request));
  } else if (FILES.has(name)) {
    event.respondWith(file(name));
  }
});
