import { clientsClaim } from 'workbox-core';
import { cleanupOutdatedCaches, matchPrecache, precacheAndRoute, type PrecacheEntry } from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: (PrecacheEntry | string)[] };

const home = new URL(self.registration.scope).pathname;

// Pages. With kit.paths.relative a page's HTML only works at its own address, so another spelling is redirected, never served in place.
registerRoute(
	new NavigationRoute(async ({ url, request }) => {
		const hit = await matchPrecache(url.pathname);
		if (hit) return hit;
		const slash = url.pathname.replace(/\/index\.html$|(?<!\/)$/, '/');
		if (slash !== url.pathname && (await matchPrecache(slash))) return Response.redirect(slash + url.search, 302);
		try {
			return await fetch(request);
		} catch {
			return Response.redirect(home, 302);
		}
	})
);
// Everything else that was built.
precacheAndRoute(self.__WB_MANIFEST, { cleanURLs: false, ignoreURLParametersMatching: [] });
cleanupOutdatedCaches();
clientsClaim();
self.addEventListener('message', (e) => {
	if ((e.data as { type?: string } | null)?.type === 'SKIP_WAITING') void self.skipWaiting();
});
