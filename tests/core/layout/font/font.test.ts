import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import type { Font } from 'fontkit';
import { describe, expect, it, vi } from 'vitest';
import { glyphOf } from '$core/layout/font/glyph';
import { advanceOf, UNKNOWN_ADVANCE_EM, widthOf } from '$core/layout/font/measure';
import { CHARACTERS } from '$core/layout/font/metrics';
import { fontFor, makeFont, openFonts } from '../../../support/makeFont.mjs';

// Many sheets in one test: slow where other work shares the processor.
vi.setConfig({ testTimeout: 60_000 });

const WEIGHTS = ['regular', 'bold'] as const;
const folder = new URL('../../../../src/core/layout/font/', import.meta.url);
const committed = (name: string) => readFileSync(new URL(name, folder), 'utf8');

describe('the bundled font', () => {
	it('is what the build script makes of the font files, byte for byte', async () => {
		const made = await makeFont();
		expect(committed('metrics.ts') === made.metrics).toBe(true);
		expect(committed('outlines.json') === made.outlines).toBe(true);
	});

	it('stays below 25 KB gzipped with its metrics', () => {
		const bytes = gzipSync(committed('metrics.ts') + committed('outlines.json'), { level: 9 }).length;
		expect(bytes).toBeLessThan(25_000);
	});

	it('has every character of English and Spanish and of the printed marks', () => {
		const needed = 'ABCXYZabcxyz0123456789ÁÉÍÓÚÜÑáéíóúüñ¿¡ªº·–—‘’“”•…«»%&()/:;,.-\'"ŁőŠžćğ';
		expect(Array.from(needed).filter((c) => !CHARACTERS.includes(c))).toEqual([]);
	});

	it.each(WEIGHTS)('measures a %s character as fontkit does', (weight) => {
		const fonts = openFonts(weight) as Font[];
		for (const character of CHARACTERS) {
			const font = fontFor(fonts, character) as Font;
			const advance = font.glyphForCodePoint(character.codePointAt(0)!).advanceWidth;
			expect(advanceOf(character, weight), character).toBeCloseTo(advance / font.unitsPerEm, 9);
			expect(glyphOf(character, weight).advanceEm).toBe(advanceOf(character, weight));
		}
	});

	it.each(WEIGHTS)('draws a %s character inside the box of fontkit, with the same area', (weight) => {
		const fonts = openFonts(weight) as Font[];
		for (const character of CHARACTERS) {
			const font = fontFor(fonts, character) as Font;
			const outline = font.glyphForCodePoint(character.codePointAt(0)!).path;
			const { contours } = glyphOf(character, weight);
			const box = boxOf(contours);
			if (character.trim() === '') {
				expect(contours, character).toEqual([]);
				continue;
			}
			// Flattening cuts an extreme point of a curve by less than its tolerance.
			expect(box.minX, character).toBeCloseTo(outline.bbox.minX / 1000, 2);
			expect(box.maxX, character).toBeCloseTo(outline.bbox.maxX / 1000, 2);
			expect(box.maxY, character).toBeCloseTo(-outline.bbox.minY / 1000, 2);
			expect(box.minY, character).toBeCloseTo(-outline.bbox.maxY / 1000, 2);
			const area = contours.reduce((sum, contour) => sum + areaOf(contour), 0);
			const expected = areaOfCommands(outline.commands) / 1e6;
			expect(Math.abs(area - expected), character).toBeLessThan(0.004);
		}
	});

	it('gives an unknown character a hollow box of known width', () => {
		const glyph = glyphOf('漢', 'bold');
		expect(glyph.advanceEm).toBe(UNKNOWN_ADVANCE_EM);
		expect(glyph.contours).toHaveLength(2);
		expect(Math.sign(areaOf(glyph.contours[0]!))).toBe(-Math.sign(areaOf(glyph.contours[1]!)));
	});

	it('adds letter spacing after every character', () => {
		expect(widthOf('Añb', 'regular', 10, 2)).toBeCloseTo(widthOf('Añb', 'regular', 10, 0) + 6, 9);
		expect(widthOf('', 'regular', 10, 2)).toBe(0);
	});
});

interface Command {
	command: string;
	args: number[];
}

function boxOf(contours: readonly Float32Array[]) {
	const xs = contours.flatMap((c) => [...c].filter((_, i) => i % 2 === 0));
	const ys = contours.flatMap((c) => [...c].filter((_, i) => i % 2 === 1));
	return { minX: Math.min(...xs), maxX: Math.max(...xs), minY: Math.min(...ys), maxY: Math.max(...ys) };
}

function areaOf(contour: Float32Array): number {
	let twice = 0;
	for (let i = 0; i < contour.length; i += 2) {
		const j = (i + 2) % contour.length;
		twice += contour[i]! * contour[j + 1]! - contour[j]! * contour[i + 1]!;
	}
	return twice / 2;
}

/** Green's theorem over the font's own lines and quadratic curves, with y turned down. */
function areaOfCommands(commands: Command[]): number {
	let area = 0;
	let [x, y, startX, startY] = [0, 0, 0, 0];
	const line = (toX: number, toY: number) => {
		area += (x * -toY - toX * -y) / 2;
		[x, y] = [toX, toY];
	};
	for (const { command, args } of commands) {
		if (command === 'moveTo') [x, y, startX, startY] = [args[0]!, args[1]!, args[0]!, args[1]!];
		else if (command === 'lineTo') line(args[0]!, args[1]!);
		else if (command === 'quadraticCurveTo') {
			const [cx, cy, toX, toY] = args as [number, number, number, number];
			const triangle = (cx - x) * -(toY - y) - (toX - x) * -(cy - y);
			area += triangle / 3;
			line(toX, toY);
		} else line(startX, startY);
	}
	return area;
}
