// Makes the PNG icons from static/icon.svg with the browser of the screen tests: `node tests/support/makeIcons.mjs`.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { launchOptions } from './browser.mjs';

const folder = join(import.meta.dirname, '..', '..', 'static');
const svg = readFileSync(join(folder, 'icon.svg'), 'utf8');
// A maskable icon may be cut to a circle of 80 % of its width: the paper fills the square, the drawing shrinks into it.
const maskable = svg.replace(/ rx="\d+"/, '').replace('<g ', '<g transform="translate(56 56) scale(.78)" ');

const browser = await chromium.launch(launchOptions());
for (const [file, sizePx, drawing] of [
	['icon-192.png', 192, svg],
	['icon-512.png', 512, svg],
	['icon-maskable-512.png', 512, maskable]
]) {
	const page = await browser.newPage({ viewport: { width: sizePx, height: sizePx } });
	await page.setContent(`<style>body{margin:0}svg{display:block}</style>${drawing}`);
	await page.screenshot({ path: join(folder, file), omitBackground: true });
	await page.close();
}
await browser.close();
