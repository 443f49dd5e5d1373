// Keeps the last pages that were read, and those of the coming week, for when the server cannot be
// reached. The network always comes first; an address that was taken back is forgotten. What is said is
// none of its business: the page itself has that wait (queue.js).
"use strict";

const KEEP = "ripeby-pages:" + self.registration.scope;

// Where it says which pages are kept for the coming week (offline.go).
const LIST = "keep.json";

const ASSETS = ["style.css", "page.js", "say.js", "queue.js", "wheel.svg"].map((name) => "/assets/" + name);

addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const cache = await caches.open(KEEP);
    await Promise.allSettled(ASSETS.map((path) => cache.add(path)));
    await self.skipWaiting();
  })());
});

addEventListener("activate", (event) => event.waitUntil((async () => {
  await clients.claim();
  await keepWeek();
})()));

// A page that has become another says so: then what is kept is looked after.
addEventListener("message", (event) => {
  if (event.data === "keep") event.waitUntil(keepWeek());
});

// keepWeek fetches what the coming week needs, where the list of it is another than that which was kept, one
// after the other: a kitchen's server is a small machine. What could not be had is fetched the next time.
let keeping;
function keepWeek() {
  keeping ??= (async () => {
    try {
      const cache = await caches.open(KEEP);
      const at = self.registration.scope + LIST;
      const answer = await fetch(at, { cache: "no-cache" });
      if (!answer.ok) return;
      const text = await answer.text();
      if (text === await (await cache.match(at))?.text()) return;
      for (const path of JSON.parse(text).pages) {
        const page = await fetch(self.registration.scope + path, { cache: "no-cache" });
        if (!page.ok) continue;
        await cache.put(page.url, page.clone());
        if (!(page.headers.get("Content-Type") ?? "").startsWith("text/html")) continue;
        for (const [, src] of (await page.text()).matchAll(/<(?:img|source)[^>]* (?:src|srcset)="(\/[^"]+)"/g)) {
          await cache.add(src.replaceAll("&amp;", "&"));
        }
      }
      await cache.put(at, new Response(text));
      await trim(cache);
    } catch { // out of reach; the page says so
    } finally {
      keeping = undefined;
    }
  })();
  return keeping;
}

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method === "GET" && url.origin === location.origin && !url.pathname.endsWith("/live") && !url.pathname.endsWith(LIST)) event.respondWith(answer(event.request));
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
const MOST = 300;

async function trim(cache) {
  const kept = await cache.keys();
  for (const request of kept.slice(0, Math.max(0, kept.length - MOST))) await cache.delete(request);
}
