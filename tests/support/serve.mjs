// Serves build/ the way a plain static host does: directory index, 308 to the slash form, immutable caching, no SSR.
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, resolve } from 'node:path';
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
	'.woff': 'font/woff',
	'.wasm': 'application/wasm',
	'.pdf': 'application/pdf',
	'.txt': 'text/plain; charset=utf-8'
};
createServer((req, res) => {
	const url = new URL(req.url ?? '/', 'http://x');
	let p = decodeURIComponent(url.pathname);
	if (!p.startsWith(base + '/')) {
		res.writeHead(404).end();
		return;
	}
	p = p.slice(base.length);
	let file = join(root, normalize(p));
	if (!file.startsWith(root)) {
		res.writeHead(403).end();
		return;
	}
	const stat = (f) => statSync(f, { throwIfNoEntry: false });
	if (stat(file)?.isDirectory()) {
		if (!p.endsWith('/')) {
			res.writeHead(308, { location: `${base}${p}/${url.search}` }).end();
			return;
		}
		file = join(file, 'index.html');
	}
	if (!stat(file)?.isFile()) {
		res.writeHead(404, { 'content-type': 'text/plain' }).end('not found');
		return;
	}
	res.writeHead(200, {
		'content-type': types[extname(file)] ?? 'application/octet-stream',
		'cache-control': p.startsWith('/_app/immutable/') ? 'public, max-age=31536000, immutable' : 'no-cache',
		'x-content-type-options': 'nosniff',
		'referrer-policy': 'no-referrer',
		'content-security-policy': "frame-ancestors 'none'",
		'permissions-policy': 'camera=(self), microphone=(), geolocation=()'
	});
	createReadStream(file).pipe(res);
}).listen(Number(port), '127.0.0.1', () => console.log(`http://localhost:${port}${base}/`));
