// Shows a kept field sheet when the office cannot be reached. It stores nothing by itself but what the sheet's page put there.
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const request = event.request;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin || request.headers.has("X-Keep")) return;
  if (request.mode === "navigate") event.respondWith(sheet(request, url));
  else if (/\.(js|css|svg)$/.test(url.pathname)) event.respondWith(part(request));
});

function bare(url) {
  for (const name of ["handler", "of", "at"]) url.searchParams.delete(name);
  return url.pathname.replace(/\/$/, "") + (url.searchParams.size ? "?" + url.searchParams : "");
}

async function sheet(request, url) {
  try {
    return await fetch(request);
  } catch (away) {
    const kept = await (await caches.open("sheets")).match(bare(url), { ignoreVary: true });
    return kept || new Response(await list(), { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
  }
}

async function part(request) {
  try {
    return await fetch(request);
  } catch (away) {
    return (await (await caches.open("parts")).match(request, { ignoreVary: true })) || Response.error();
  }
}

async function list() {
  const sheets = await (await caches.open("sheets")).keys();
  const links = sheets.map((s) => { const at = new URL(s.url); return at.pathname + at.search; }).map((p) => `<li><a href="${p}">${p}</a></li>`).join("");
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>No connection</title></head><body><h1>No connection to the office</h1>${links ? `<p>These sheets are on this device and can be filled in now:</p><ul>${links}</ul>` : "<p>Open a sheet once while there is a connection, and it can be filled in without one.</p>"}</body></html>`;
}
