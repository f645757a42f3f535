import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import { launchOptions } from '../support/browser.mjs';

/**
 * JavaScript of a first visit to /practice, gzipped, on the built app (`BASE_PATH=/ballot npm run build` first):
 * what comes with the page, what comes when a hand nears the sheet (the reading worker), and what a first mark
 * fetches. The limit is for the page as it opens; what comes when it is marked is printed beside it. The service worker's
 * own script is left out: it runs after the page and not in it.
 */
const LIMIT_KB = 110;
const PORT = 4332;

const server = spawn(
	process.execPath,
	[join(import.meta.dirname, '..', 'support', 'serve.mjs'), String(PORT), '/ballot'],
	{ stdio: 'ignore' }
);
const browser = await chromium.launch(launchOptions());
try {
	const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
	const sizes = new Map<string, number>();
	const asked: Promise<void>[] = [];
	page.context().on('response', (response) => {
		const path = new URL(response.url()).pathname;
		// What the service worker fetches for later visits is not this visit's.
		if (!path.endsWith('.js') || sizes.has(path) || response.request().serviceWorker() !== null) return;
		sizes.set(path, 0);
		asked.push(response.body().then((body) => void sizes.set(path, gzipSync(body, { level: 9 }).length)));
	});
	const line = async (what: string): Promise<number> => {
		await page.waitForLoadState('networkidle');
		await page.waitForTimeout(1000);
		await Promise.all(asked);
		const own = [...sizes].filter(([path]) => !/(sw|workbox[^/]*)\.js$/.test(path));
		const kb = own.reduce((sum, [, bytes]) => sum + bytes, 0) / 1024;
		process.stdout.write(`${what}: ${kb.toFixed(1)} KB in ${own.length} files\n`);
		return kb;
	};
	await page.goto(`http://localhost:${PORT}/ballot/en/practice/`);
	const opened = await line('with the page');
	await page.locator('.tools').hover();
	await page.locator('.practice[data-ready=true]').waitFor();
	await line('… and the reading worker');
	const target = await page.locator('svg.print g[fill="none"] path').first().boundingBox();
	if (!target) throw new Error('expected a target on the sheet, found none');
	await page.mouse.move(target.x + 2, target.y + target.height / 2);
	await page.mouse.down();
	await page.mouse.move(target.x + target.width - 2, target.y + target.height / 2, { steps: 6 });
	await page.mouse.up();
	await page.locator('.note h2:visible').first().waitFor();
	await line('… and a first mark with its note');
	if (process.argv.includes('--files'))
		for (const [path, bytes] of [...sizes].sort(([, a], [, b]) => b - a))
			process.stdout.write(`${(bytes / 1024).toFixed(1).padStart(8)} ${path}\n`);
	process.stdout.write(`limit ${LIMIT_KB} KB with the page: ${opened <= LIMIT_KB ? 'PASS' : 'FAIL'}\n`);
	if (opened > LIMIT_KB) process.exitCode = 1;
} finally {
	await browser.close();
	server.kill();
}
