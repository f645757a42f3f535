import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { launchOptions } from '../support/browser.mjs';
import { PHRASINGS } from '../core/answers/measurePhrasings';
import { quantile } from './timing';

/**
 * What one key takes on the answers page, in Chromium, on the built app (`BASE_PATH=/ballot npm run build` first): the
 * search and all the page does with what it found. Callers' phrasings are typed letter by letter with the page's
 * thread slowed 4 times. Time is what the page's scripts took (ScriptDuration of the DevTools protocol), in the thread's
 * own time, so that other programs do not add to it.
 */
const SLOWED = 4;
const LIMIT_MS = 10;
const PORT = 4333;
/** One phrasing in so many is typed; the first few warm up. */
const EVERY = 12;
const WARM_UP = 3;

const server = spawn(
	process.execPath,
	[join(import.meta.dirname, '..', 'support', 'serve.mjs'), String(PORT), '/ballot'],
	{ stdio: 'ignore' }
);
const browser = await chromium.launch(launchOptions());
let failed = false;
try {
	for (const language of ['en', 'es'] as const) {
		const page = await browser.newPage({ viewport: { width: 412, height: 900 }, serviceWorkers: 'block' });
		await page.goto(`http://localhost:${PORT}/ballot/${language}/answers/`);
		await page.locator('[data-ready=true]').waitFor();
		const session = await page.context().newCDPSession(page);
		await session.send('Performance.enable', { timeDomain: 'threadTicks' });
		await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWED });
		const script = async (): Promise<number> => {
			const { metrics } = await session.send('Performance.getMetrics');
			return 1000 * (metrics.find(({ name }) => name === 'ScriptDuration')?.value ?? 0);
		};
		const field = page.locator('#words');
		const times: number[] = [];
		const typed = PHRASINGS[language].filter((_, i) => i % EVERY === 0);
		for (const [at, { asked }] of typed.entries()) {
			await field.fill('');
			for (const letter of asked) {
				const before = await script();
				await page.keyboard.type(letter);
				if (at >= WARM_UP) times.push((await script()) - before);
			}
		}
		const slowest = quantile(times, 0.95);
		process.stdout.write(
			`${language}: ${times.length} keys of ${typed.length - WARM_UP} phrasings, slowed ${SLOWED} times: ` +
				`median ${quantile(times, 0.5).toFixed(1)} ms, 95th ${slowest.toFixed(1)} ms; limit ${LIMIT_MS} ms for the 95th\n`
		);
		if (slowest > LIMIT_MS) failed = true;
		await page.close();
	}
} finally {
	await browser.close();
	server.kill();
}
process.stdout.write(failed ? 'FAIL\n' : 'PASS\n');
if (failed) process.exitCode = 1;
