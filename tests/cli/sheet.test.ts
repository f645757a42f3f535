import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { fairhand, fileWith } from './run';

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

	test.each([
		[['--page', '99'], 1, /expected a page from 1 to \d/],
		[['--page', 'two'], 1, /expected a page/],
		[['--style', 'nowhere'], 1, /style: expected one of/],
		[['--paper', 'a3'], 2, /--paper letter or a4/],
		[['--format', 'pdf'], 2, /--out FILE/]
	])('%j ends with code %i and says why', (args, code, message) => {
		const run = fairhand('sheet', ...args);
		expect(run.code).toBe(code);
		expect(run.errors.join('\n')).toMatch(message);
	});
});
