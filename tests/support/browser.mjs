// Finds a Chromium for the browser tests, or gets one. Run directly: `node tests/support/browser.mjs` prints the path.
import { execFileSync, spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const runnable = (p) => {
	try {
		accessSync(p, constants.X_OK);
		return true;
	} catch {
		return false;
	}
};

/** Path of Playwright's own build if it is on this machine ('' = none): Playwright then needs no executablePath. */
export function bundledChromium() {
	const p = chromium.executablePath();
	return p && existsSync(p) ? p : '';
}

/** Path of an installed Chromium-family browser, or ''. CHROMIUM_PATH wins. */
export function systemChromium() {
	if (process.env.CHROMIUM_PATH) return process.env.CHROMIUM_PATH;
	const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge-stable'];
	const dirs = [...(process.env.PATH ?? '').split(delimiter), '/usr/bin', '/usr/local/bin', '/snap/bin'];
	const fixed = [
		'/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
		'/Applications/Chromium.app/Contents/MacOS/Chromium',
		'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
		'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe'
	];
	const all = [...names.flatMap((n) => dirs.filter(Boolean).map((d) => join(d, n))), ...fixed];
	return all.find(runnable) ?? '';
}

/** undefined = let Playwright use its own build. Sync, so playwright.config.ts can call it. */
export function executablePath() {
	if (process.env.CHROMIUM_PATH) return process.env.CHROMIUM_PATH;
	if (bundledChromium()) return undefined;
	return systemChromium() || undefined;
}

function sh(cmd, args, opts = {}) {
	console.error(`$ ${cmd} ${args.join(' ')}`);
	const r = spawnSync(cmd, args, { stdio: ['ignore', 2, 2], timeout: 8 * 60_000, ...opts });
	return r.status === 0;
}

export function ensureChromium() {
	const have = () => process.env.CHROMIUM_PATH || bundledChromium() || systemChromium();
	if (have()) return have();

	console.error('No Chromium found: trying Playwright’s own download …');
	const cli = join(import.meta.dirname, '..', '..', 'node_modules', 'playwright-core', 'cli.js');
	sh(process.execPath, [cli, 'install', 'chromium', '--only-shell'], { timeout: 5 * 60_000 });
	if (have()) return have();

	if (process.platform === 'linux' && runnable('/usr/bin/apt-get')) {
		const root = process.getuid?.() === 0;
		const sudo = !root && spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status === 0;
		if (root || sudo) {
			console.error('… not reachable: trying the system’s package (apt-get install chromium) …');
			const pre = root ? [] : ['sudo', '-n'];
			const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
			const apt = (...a) => sh([...pre, 'apt-get'][0], [...pre, 'apt-get', ...a].slice(1), { env });
			apt('update', '-q');
			apt(
				'-o',
				'DPkg::Lock::Timeout=300',
				'install',
				'-y',
				'-q',
				'--no-install-recommends',
				'chromium',
				'fonts-liberation'
			);
			if (have()) return have();
		}
	}
	throw new Error(
		'No Chromium for the browser tests. Install Chrome or Chromium, or set CHROMIUM_PATH=/path/to/chrome, or run `npx playwright install chromium` with internet access.'
	);
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
	try {
		const p = ensureChromium();
		const v = process.platform === 'win32' ? '' : execFileSync(p, ['--version'], { encoding: 'utf8' }).trim();
		console.log(`${p} (${v})`);
	} catch (e) {
		console.error(e.message);
		process.exit(1);
	}
}
