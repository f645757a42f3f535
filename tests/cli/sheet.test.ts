import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { county, fair } from '$core/election/demo';
import { ensureBrowser } from '../support/browser.mjs';
import { ensurePoppler, textOfPdf } from '../support/poppler';
import { fairhand, fileWith } from './run';

// Each run is a process of its own, some with a browser: slow where other work shares the processor.
vi.setConfig({ testTimeout: 240_000, hookTimeout: 900_000 });

const hasPoppler = ensurePoppler();
beforeAll(() => {
	ensureBrowser();
});

const pagesOf = (pdf: string): number => pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
const plain = (text: string): string => text.replace(/\s+/g, ' ');

describe('sheet', () => {
	test('prints one page as SVG that needs no file but itself', () => {
		const { code, lines } = fairhand('sheet', '--page', '2');
		const svg = lines.join('\n');
		expect(code).toBe(0);
		expect(svg).toMatch(/^<svg [^>]*width="612pt" height="792pt"/);
		expect(svg).not.toMatch(/url\((?!data:)|href=/);
	});

	test('prints a PDF of one page of its paper whose text is text', () => {
		const out = fileWith('sheet.pdf', '');
		expect(fairhand('sheet', '--format', 'pdf', '--paper', 'a4', '--out', out).code).toBe(0);
		const pdf = readFileSync(out, 'latin1');
		expect(pdf.startsWith('%PDF-')).toBe(true);
		expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
		const [, width, height] = /\/MediaBox\s*\[\s*0 0 (\S+) (\S+?)\s*\]/.exec(pdf)!.map(Number);
		expect(Math.abs(width! - 595.28)).toBeLessThan(1);
		expect(Math.abs(height! - 841.89)).toBeLessThan(1);
		// Letters come from a font with a table back to characters, not from drawn shapes.
		expect(pdf).toContain('/ToUnicode');
	});

	test('prints large print in the language asked for', () => {
		const { code, lines } = fairhand('sheet', '--large', '--languages', 'es', '--style', 'reedmarsh', '--page', '3');
		const svg = lines.join('\n');
		expect(code).toBe(0);
		expect(svg).toMatch(/^<svg [^>]*lang="es"/);
		expect(svg).toMatch(/font-size="22"[^>]*>/);
		expect(svg).toContain('Página 3 de ');
	});

	test.each([
		[['--page', '99'], 1, /expected a page from 1 to \d/],
		[['--page', 'two'], 1, /expected a page/],
		[['--style', 'nowhere'], 1, /style: expected one of/],
		[['--languages', 'fr'], 1, /languages: expected some of en, es, got "fr"/],
		[['--large', '--languages', 'en,es'], 1, /expected every contest to fit a page.*one language at a time/],
		[['--paper', 'a3'], 2, /--paper letter or a4/],
		[['--format', 'pdf'], 2, /--out FILE/],
		[['--large=18'], 2, /large/],
		[['--stack', 'x', '--page', '2'], 2, /--stack DIR or --page, got both/]
	])('%j ends with code %i and says why in one line', (args, code, message) => {
		const run = fairhand('sheet', ...args);
		expect([run.code, run.errors]).toEqual([code, [expect.stringMatching(message)]]);
	});
});

describe('a stack of sheets', () => {
	interface Line {
		readonly file: string;
		readonly style: string;
		readonly languages: readonly string[];
		readonly printSize: string;
		readonly pages: readonly number[];
	}
	const stackIn = (folder: string, ...args: string[]): Line[] => {
		const { code, lines } = fairhand('sheet', '--stack', folder, ...args);
		expect(code).toBe(0);
		return lines.map((line) => JSON.parse(line) as Line);
	};

	test('has every page of every style in every language, a file each', () => {
		const folder = join(mkdtempSync(join(tmpdir(), 'fairhand-stack-')), 'new');
		const lines = stackIn(folder, '--large', '--colour', 'grey');
		const kinds = new Set(lines.map(({ style, languages }) => `${style} ${languages.join()}`));
		expect([...kinds].sort()).toEqual(county.styles.flatMap(({ id }) => [`${id} en`, `${id} es`]).sort());
		expect(lines.every(({ printSize, pages }) => printSize === 'large' && pages.length === 1)).toBe(true);
		expect(
			readdirSync(folder)
				.map((name) => join(folder, name))
				.sort()
		).toEqual(lines.map(({ file }) => file).sort());
		expect(new Set(lines.map(({ file }) => readFileSync(file, 'utf8'))).size).toBe(lines.length);
	});

	test('has one PDF for each style and language, its text as text, all pages in it', () => {
		const folder = mkdtempSync(join(tmpdir(), 'fairhand-stack-'));
		const election = 'src/core/election/files/fair.json';
		const lines = stackIn(folder, '--election', election, '--format', 'pdf', '--large');
		expect(lines.map(({ file }) => file)).toEqual(
			['en', 'es'].map((language) => join(folder, `fair-${language}-large.pdf`))
		);
		for (const { file, pages } of lines) expect(pagesOf(readFileSync(file, 'latin1'))).toBe(pages.length);
		if (!hasPoppler) return;
		const [english, spanish] = lines.map(({ file }) => plain(textOfPdf(file)));
		for (const { title } of fair.contests) {
			expect(english).toContain(plain(title['en']!));
			expect(spanish).toContain(plain(title['es']!));
		}
		expect(spanish).toContain('PRÁCTICA');
	});
});
