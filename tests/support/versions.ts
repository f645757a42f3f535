import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

/** A host of the app that gets a second version. */
export interface TwoVersions {
	/** Its address, to use as base URL. */
	readonly site: string;
	/** Puts the second version there, which does without these files: they are gone. */
	bringNew(without?: readonly string[]): void;
	close(): void;
}

/** Passes the app on from where it is served, on a port of its own, as nothing else must see the second version. */
export async function twoVersions(served: string): Promise<TwoVersions> {
	let gone: readonly string[] | undefined;
	const server = createServer((request, response) => {
		void (async () => {
			const path = request.url ?? '/';
			const answer = await fetch(new URL(path, served), { redirect: 'manual' });
			let body: string | Buffer = Buffer.from(await answer.arrayBuffer());
			if (gone && path.endsWith('/service-worker.js')) {
				body = `${body.toString()}\n// The second version.`;
				for (const file of gone) body = body.replace(listed(file), '');
			}
			const headers = Object.fromEntries(
				[...answer.headers].filter(([name]) => /^(content-(type|security-policy)|location)$/.test(name))
			);
			// Nothing may come from the browser's own store: it keeps old files only as long as it likes.
			response.writeHead(gone?.some((file) => path.endsWith(file)) ? 404 : answer.status, {
				...headers,
				'cache-control': 'no-store'
			});
			response.end(body);
		})().catch(() => response.destroy());
	});
	await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
	const { port } = server.address() as AddressInfo;
	return {
		site: `http://localhost:${port}${new URL(served).pathname}`,
		bringNew: (without = []) => (gone = without),
		close: () => {
			server.closeAllConnections();
			server.close();
		}
	};
}

/** How the service worker lists a file that is named by what is in it. */
const listed = (file: string): string => `{"revision":null,"url":"${file}"},`;
