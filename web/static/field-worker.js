"use strict";

/* Opens what was taken along when there is no network. It keeps nothing by itself: what is kept is
   put there by the page, when the owner asks for it. */
const KEPT = "lightledger-field";

/* How long a slow network is waited for, milliseconds: own choice. */
const PATIENCE_MS = 4000;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

const freshElseKept = async (request, key) => {
  const kept = await (await caches.open(KEPT)).match(key);
  if (!kept) {
    return fetch(request);
  }
  const tooSlow = new Promise((resolve) => setTimeout(() => resolve(null), PATIENCE_MS));
  try {
    const fresh = await Promise.race([fetch(request), tooSlow]);
    return fresh && fresh.status < 500 ? fresh : kept;
  } catch {
    return kept;
  }
};

const keptElseFresh = async (request) =>
  (await (await caches.open(KEPT)).match(request)) ?? fetch(request);

self.addEventListener("fetch", (event) => {
  const request = event.request;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) {
    return;
  }
  if (request.mode === "navigate") {
    if (url.pathname === "/field") {
      event.respondWith(freshElseKept(request, "/field"));
    }
  } else if (url.pathname.startsWith("/static/")) {
    event.respondWith(keptElseFresh(request));
  } else if (url.pathname.startsWith("/field/") && !url.searchParams.has("fresh")) {
    event.respondWith(freshElseKept(request, url.pathname + url.search));
  }
});
