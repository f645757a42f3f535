// Serves build/ as a plain static host does: folder index, 308 to the slash form, 404 for what is not there.
// `node tests/support/serve.mjs [PORT] [BASE]`. The headers are a sample for a real host: what a page's own
// <meta> policy cannot say, and the policy again for workers, which follow the headers of their own file.
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, resolve, sep } from 'node:path';

const [port = '4173', base = ''] = process.argv.slice(2);
const root = resolve(import.meta.dirname, '..', '..', 'build');

const types = {
	'.html': 'text/html; charset=utf-8',
	'.js': 'text/javascript; charset=utf-8',
	'.css': 'text/css; charset=utf-8',
	'.json': 'application/json',
	'.webmanifest': 'application/manifest+json',
	'.svg': 'image/svg+xml',
	'.png': 'image/png',
	'.woff2': 'font/woff2',
	'.txt': 'text/plain; charset=utf-8'
};

const headers = {
	'x-content-type-options': 'nosniff',
	'referrer-policy': 'no-referrer',
	'permissions-policy': 'camera=(self), microphone=(), geolocation=(), browsing-topics=()',
	'cross-origin-opener-policy': 'same-origin'
};
// Pages carry the hashes of their own scripts in <meta>; here only what <meta> may not hold.
const pagePolicy = "frame-ancestors 'none'";
const filePolicy = "default-src 'none'; script-src 'self'; connect-src 'self'; frame-ancestors 'none'";

const stat = (file) => statSync(file, { throwIfNoEntry: false });

createServer((request, response) => {
	const url = new URL(request.url ?? '/', 'http://localhost');
	const path = decodeURIComponent(url.pathname);
	if (!path.startsWith(`${base}/`)) return response.writeHead(404).end();

	const inside = path.slice(base.length);
	let file = join(root, normalize(inside));
	if (file !== root && !file.startsWith(root + sep)) return response.writeHead(403).end();

	if (stat(file)?.isDirectory()) {
		if (!inside.endsWith('/')) return response.writeHead(308, { location: `${path}/${url.search}` }).end();
		file = join(file, 'index.html');
	}
	// Never a page in place of a missing file: a browser would run it as the script it asked for.
	if (!stat(file)?.isFile()) return response.writeHead(404, { 'content-type': 'text/plain' }).end('not found');

	const type = extname(file);
	response.writeHead(200, {
		...headers,
		'content-type': types[type] ?? 'application/octet-stream',
		'content-security-policy': type === '.html' ? pagePolicy : filePolicy,
		'cache-control': inside.startsWith('/_app/immutable/') ? 'public, max-age=31536000, immutable' : 'no-cache'
	});
	createReadStream(file).pipe(response);
}).listen(Number(port), '127.0.0.1', () => {
	console.log(`http://localhost:${port}${base}/`);
});
