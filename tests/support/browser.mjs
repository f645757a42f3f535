// Finds a Chromium for the screen tests, or gets one. Run directly, it prints the path: `node tests/support/browser.mjs`.
import { execFileSync, spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const MINUTE_MS = 60_000;
const isRoot = process.getuid?.() === 0;

/** What Playwright needs to start the browser that is here. Sync, so that playwright.config.ts can call it. */
export function launchOptions() {
	const path = process.env.CHROMIUM_PATH || (bundled() ? '' : installed());
	return {
		...(path ? { executablePath: path } : {}),
		args: [
			// Chromium refuses its sandbox to root.
			...(isRoot ? ['--no-sandbox'] : []),
			// Nothing of its own on the network: a request seen in a test is then the app's.
			'--disable-background-networking',
			'--disable-component-update',
			'--disable-sync',
			'--no-first-run'
		]
	};
}

/** Path of a Chromium; installs one where there is none. Throws, saying what to do, when that fails. */
export function ensureBrowser() {
	const have = () => process.env.CHROMIUM_PATH || bundled() || installed();
	if (have()) return have();

	console.error('No Chromium found: trying Playwright’s own download');
	const cli = join(import.meta.dirname, '..', '..', 'node_modules', 'playwright-core', 'cli.js');
	run(process.execPath, [cli, 'install', 'chromium', '--only-shell'], 5 * MINUTE_MS);
	if (have()) return have();

	const sudo = isRoot ? [] : ['sudo', '-n'];
	if (runnable('/usr/bin/apt-get') && (isRoot || spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status === 0)) {
		console.error('Trying the system’s own package: apt-get install chromium');
		const apt = (...args) => {
			const [command, ...rest] = [...sudo, 'apt-get', ...args];
			run(command, rest, 8 * MINUTE_MS);
		};
		apt('update', '-q');
		// Another process may be installing: wait for its lock instead of failing.
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
	throw new Error(
		'No Chromium for the screen tests. Install Chrome or Chromium, or set CHROMIUM_PATH=/path/to/chrome, or run `npx playwright install chromium` with a network.'
	);
}

/** Path of Playwright's own build, or '': Playwright finds that one by itself. */
function bundled() {
	const path = chromium.executablePath();
	return path && existsSync(path) ? path : '';
}

/** Path of an installed browser of the Chromium family, or ''. */
function installed() {
	const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'microsoft-edge-stable'];
	const folders = [...(process.env.PATH ?? '').split(delimiter), '/usr/bin', '/usr/local/bin', '/snap/bin'];
	const fixed = [
		'/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
		'/Applications/Chromium.app/Contents/MacOS/Chromium',
		'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
		'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe'
	];
	const paths = names.flatMap((name) => folders.filter(Boolean).map((folder) => join(folder, name)));
	return [...paths, ...fixed].find(runnable) ?? '';
}

function runnable(path) {
	try {
		accessSync(path, constants.X_OK);
		return true;
	} catch {
		return false;
	}
}

/** Runs a command with its output on standard error. Whether it helped is seen by looking for the browser again. */
function run(command, args, timeout) {
	console.error(`$ ${command} ${args.join(' ')}`);
	const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
	spawnSync(command, args, { stdio: ['ignore', 2, 2], timeout, env });
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
	try {
		const path = ensureBrowser();
		// On Windows --version would open a window.
		const version = process.platform === 'win32' ? '' : execFileSync(path, ['--version'], { encoding: 'utf8' }).trim();
		console.log(`${path} ${version}`);
	} catch (error) {
		console.error(error.message);
		process.exit(1);
	}
}
