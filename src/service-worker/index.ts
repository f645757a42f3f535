import { cacheNames, clientsClaim } from 'workbox-core';
import {
	cleanupOutdatedCaches,
	getCacheKeyForURL,
	matchPrecache,
	precacheAndRoute,
	type PrecacheEntry
} from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: (PrecacheEntry | string)[] };

const home = new URL(self.registration.scope).pathname;
/** Files named by what is in them: those of two versions never get in each other's way. */
const lasting = `${home}_app/immutable/`;
/** The cache of those of the version before this one. */
const before = `fairhand-before-${home}`;

// Pages come first: precacheAndRoute would answer some of their addresses in its own way.
registerRoute(new NavigationRoute(({ url, request }) => openPage(url, request)));
// Every other file of the build. Nothing is fetched or kept beyond these. A page's data is asked for with a
// parameter of SvelteKit's own, which changes nothing about it.
precacheAndRoute(self.__WB_MANIFEST, { cleanURLs: false, ignoreURLParametersMatching: [/^x-sveltekit-/] });
// A tab with ink in it still runs the version before, and fetches parts of it when they are first needed.
registerRoute(
	({ url }) => url.pathname.startsWith(lasting),
	async ({ url, request }) => (await caches.match(url.href, { cacheName: before })) ?? fetch(request)
);
self.addEventListener('install', (event) => {
	event.waitUntil(keepBefore());
});
cleanupOutdatedCaches();
clientsClaim();

// The page asks the user first, and never in the middle of a ballot: a new version waits for this message.
self.addEventListener('message', (event) => {
	if ((event.data as { type?: string } | null)?.type === 'SKIP_WAITING') void self.skipWaiting();
});

/** Sets aside what this version has no use for and will remove once it is taken. */
async function keepBefore(): Promise<void> {
	await caches.delete(before);
	const [from, to] = await Promise.all([caches.open(cacheNames.precache), caches.open(before)]);
	for (const { url } of await from.keys()) {
		if (!new URL(url).pathname.startsWith(lasting) || getCacheKeyForURL(url)) continue;
		const file = await from.match(url);
		if (file) await to.put(url, file);
	}
}

/**
 * A page from the device. Its links are relative, so it only works at its own address: another spelling of the address
 * (no final slash, index.html) is redirected, never served in place. Unknown pages go to the network, and with none to
 * the start.
 */
async function openPage(url: URL, request: Request): Promise<Response> {
	const page = await matchPrecache(url.pathname);
	if (page) return page;
	const slashed = url.pathname.replace(/\/index\.html$|(?<!\/)$/, '/');
	if (slashed !== url.pathname && (await matchPrecache(slashed))) return Response.redirect(slashed + url.search, 302);
	try {
		return await fetch(request);
	} catch {
		return Response.redirect(home, 302);
	}
}
