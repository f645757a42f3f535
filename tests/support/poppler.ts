import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const MINUTE_MS = 60_000;

/**
 * Whether poppler's `pdftotext` and `pdftoppm` are here, an outside reader of our PDFs. Installs them where the system's
 * package manager may be used; where it may not, says so on standard error, and the tests that need them are skipped.
 */
export function ensurePoppler(): boolean {
	if (isThere()) return true;
	if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
		process.stderr.write('No poppler found: trying apt-get install poppler-utils\n');
		apt('update', '-q');
		// Another process may be installing: wait for its lock instead of failing.
		apt('-o', 'DPkg::Lock::Timeout=300', 'install', '-y', '-q', '--no-install-recommends', 'poppler-utils');
	}
	if (isThere()) return true;
	process.stderr.write('No pdftotext and pdftoppm: PDFs are not read back. Install poppler-utils to test that too.\n');
	return false;
}

const isThere = (): boolean =>
	['pdftotext', 'pdftoppm'].every((name) => spawnSync(name, ['-v'], { stdio: 'ignore' }).status === 0);

function apt(...args: readonly string[]): void {
	const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
	spawnSync('apt-get', args, { stdio: ['ignore', 2, 2], timeout: 8 * MINUTE_MS, env });
}

/** The text of a PDF file, page after page. */
export function textOfPdf(file: string): string {
	const { status, stdout, stderr } = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
	if (status !== 0) throw new Error(`textOfPdf: pdftotext failed on ${file}: ${stderr}`);
	return stdout;
}

/** A grey PNG file of each page of a PDF, in order. */
export function picturesOfPdf(file: string, dpi: number): readonly string[] {
	const folder = mkdtempSync(join(tmpdir(), 'fairhand-poppler-'));
	const { status, stderr } = spawnSync('pdftoppm', ['-r', String(dpi), '-gray', '-png', file, join(folder, 'page')], {
		encoding: 'utf8'
	});
	if (status !== 0) throw new Error(`picturesOfPdf: pdftoppm failed on ${file}: ${stderr}`);
	return readdirSync(folder)
		.sort()
		.map((name) => join(folder, name));
}
