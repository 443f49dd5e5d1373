// Keeps the last pages that were read, for when the server cannot be reached. The
// network always comes first; an address that was taken back is forgotten.
"use strict";

const KEEP = "ripeby-pages:" + self.registration.scope;

addEventListener("install", (event) => {
  const root = self.registration.scope;
  const drawn = [root + "batches", root + "cold"]; // what is drawn on them is kept too
  const first = [root, root + "week", ...drawn, root + "batches.svg", root + "more", root + "status", root + "changes",
    "/assets/style.css", "/assets/page.js", "/assets/wheel.svg"];
  event.waitUntil((async () => {
    const cache = await caches.open(KEEP);
    await Promise.allSettled(first.map((path) => cache.add(path)));
    const pages = await Promise.all(drawn.map(async (path) => (await cache.match(path))?.text() ?? ""));
    const pictures = pages.flatMap((page) => [...page.matchAll(/ (?:src|srcset)="([^" ]+\.svg)"/g)].map((found) => found[1]));
    await Promise.allSettled(pictures.map((path) => cache.add(path)));
    await self.skipWaiting();
  })());
});

addEventListener("activate", (event) => event.waitUntil(clients.claim()));

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method === "GET" && url.origin === location.origin && !url.pathname.endsWith("/live")) event.respondWith(answer(event.request));
});

// A server that says nothing for so long, in milliseconds, counts as out of reach
// where there is an answer to give instead.
const PATIENCE = 4000;

async function answer(request) {
  const cache = await caches.open(KEEP);
  const old = await cache.match(request, { ignoreVary: true });
  const signal = old ? AbortSignal.timeout(PATIENCE) : undefined;
  const fresh = await fetch(request, { signal }).catch(() => Response.error());
  if (fresh.type === "error" || fresh.status >= 500) {
    return old ? marked(old) : fresh;
  }
  if (fresh.status === 410) {
    await caches.delete(KEEP);
    await self.registration.unregister();
  } else if (fresh.status === 404) { // gone with the plan
    await cache.delete(request);
  } else if (fresh.ok && !request.url.endsWith("/calendars")) { // keys are not kept
    await cache.put(request, fresh.clone());
    await trim(cache);
  }
  return fresh;
}

// marked gives an answer that was kept so that the page says so at once.
async function marked(old) {
  const headers = new Headers(old.headers);
  headers.set("X-Kept", "1");
  if (!(headers.get("Content-Type") ?? "").startsWith("text/html")) {
    return new Response(old.body, { status: old.status, headers });
  }
  headers.delete("Content-Length");
  return new Response((await old.text()).replace("<body", "<body data-kept"), { status: old.status, headers });
}

// So many answers are kept, the latest ones.
const MOST = 80;

async function trim(cache) {
  const kept = await cache.keys();
  for (const request of kept.slice(0, Math.max(0, kept.length - MOST))) await cache.delete(request);
}
