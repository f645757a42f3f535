import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { county } from '$core/election/demo';
import type { Box } from '$core/geometry';
import { drawPage } from '$core/layout/draw';
import { layOut } from '$core/layout/layOutBallot';
import { reachOf, targetOutline } from '$core/layout/targetOutline';
import { wrap } from '$core/layout/wrap';
import { widthOf } from '$core/layout/font/measure';
import { candidate, contestOf, electionOf, SHAPES, SIDES, words } from './sheets';

// Many sheets in one test: slow where other work shares the processor.
vi.setConfig({ testTimeout: 60_000 });

const layout = layOut(county, county.styles[0]!.id, words, ['en', 'es']);

describe('drawPage', () => {
	it('draws every text and target of a page, in points, with its language', () => {
		for (const { page, texts, choices, widthPt, heightPt } of layout.pages) {
			const svg = drawPage(layout, page);
			expect(svg).toContain(`viewBox="0 0 ${widthPt} ${heightPt}"`);
			expect(svg.match(/<text /g)).toHaveLength(texts.length);
			expect(svg.match(/<path /g)).toHaveLength(choices.length);
			expect(svg.match(/<text [^>]*lang="es"/g)).toHaveLength(texts.filter(({ language }) => language === 'es').length);
		}
	});

	it('needs no inline style, script or outside file', () => {
		for (const { page } of layout.pages)
			expect(drawPage(layout, page)).not.toMatch(/\sstyle=|<style|<script|\son\w+=|href=|url\(/);
	});

	it('cannot pass for an official ballot: tinted paper, and PRACTICE above every contest', () => {
		for (const { page, contests } of layout.pages) {
			const svg = drawPage(layout, page);
			expect(svg).toContain('fill="#fbf7ea"');
			expect(svg.match(/>PRACTICE[ <]/g)!.length).toBeGreaterThan(contests.length);
		}
	});

	it('keeps PRACTICE in black and white, and leaves the paper out where it is asked to', () => {
		const plain = drawPage(layout, 1, { blackAndWhite: true });
		expect(plain).toContain('>PRACTICE');
		expect(plain).not.toMatch(/#(?!000000|ffffff)[0-9a-f]{6}/);
		expect(drawPage(layout, 1, { withoutPaper: true })).not.toContain('<rect');
	});

	it('prints markup in a name as text', () => {
		const nasty = '<script>alert("1")</script> & \'x\' ]]>';
		const election = electionOf([contestOf('a', [candidate('b', nasty)])]);
		const svg = drawPage(layOut(election, 'all', words), 1);
		expect(svg).toContain('&lt;script&gt;');
		expect(svg).not.toContain('<script');
	});

	it('writes well-formed text whatever a name holds', () => {
		fc.assert(
			fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (name) => {
				const svg = drawPage(layOut(electionOf([contestOf('a', [candidate('b', name)])]), 'all', words), 1);
				const bare = svg
					.replace(/<\/?[a-z]+( [a-zA-Z0-9-]+="[^"<]*"| xmlns="[^"]*")*\s*\/?>/g, '')
					.replace(/&(amp|lt|gt|quot|#39);/g, '');
				expect(bare).not.toMatch(/[<&]|[^\P{Cc}\n]/u);
			}),
			{ numRuns: 40 }
		);
	});

	it('holds letters that the bundled font does not have to the width laid out for them', () => {
		const svg = drawPage(layOut(electionOf([contestOf('a', [candidate('b', '漢字')])]), 'all', words), 1);
		expect(svg).toMatch(/textLength="13\.2" lengthAdjust="spacingAndGlyphs">漢字/);
	});

	it('lets a browser draw each line in one piece: no line only has its spaces held to a width', () => {
		const lines = drawPage(layout, 1).match(/<text [^>]*textLength[^>]*>/g) ?? [];
		expect(lines.length).toBeGreaterThan(40);
		expect(lines.filter((line) => !line.includes('lengthAdjust="spacingAndGlyphs"'))).toEqual([]);
	});

	it('refuses a page that is not there', () => {
		expect(() => drawPage(layout, 9)).toThrow(/expected a page from 1 to/);
	});
});

describe('targetOutline', () => {
	const box: Box = { x: 36, y: 72, width: 18, height: 9 };

	it.each(SHAPES.filter((shape) => shape !== 'arrow'))('draws a %s whose line ends at the box, inside it', (shape) => {
		const extent = extentOf(shape, 'left');
		expect(extent.minX).toBeCloseTo(36, 6);
		expect(extent.maxX).toBeCloseTo(54, 6);
		expect(extent.minY).toBeCloseTo(72, 6);
		expect(extent.maxY).toBeCloseTo(81, 6);
	});

	it.each(SIDES)('leaves the gap of a broken arrow on the %s free and points at the name', (side) => {
		const { outwardPt, inwardPt } = reachOf('arrow');
		const strokes = targetOutline('arrow', side, box);
		for (const { points, widthPt } of strokes) {
			const xs = [...points].filter((_, i) => i % 2 === 0);
			const free =
				Math.max(...xs) + widthPt / 2 <= box.x + 1e-9 || Math.min(...xs) - widthPt / 2 >= box.x + box.width - 1e-9;
			expect(free).toBe(true);
		}
		const { minX, maxX } = extentOf('arrow', side);
		expect(box.x - minX).toBeCloseTo(side === 'left' ? outwardPt : inwardPt, 6);
		expect(maxX - box.x - box.width).toBeCloseTo(side === 'left' ? inwardPt : outwardPt, 6);
		const tip = strokes.at(-1)!.points[2]!;
		expect(side === 'left' ? tip > box.x + box.width : tip < box.x).toBe(true);
	});

	function extentOf(shape: (typeof SHAPES)[number], side: (typeof SIDES)[number]) {
		const strokes = targetOutline(shape, side, box);
		const reach = (at: 0 | 1, sign: 1 | -1) =>
			sign *
			Math.max(
				...strokes.flatMap(({ points, widthPt }) =>
					[...points].filter((_, i) => i % 2 === at).map((v) => sign * v + widthPt / 2)
				)
			);
		return { minX: reach(0, -1), maxX: reach(0, 1), minY: reach(1, -1), maxY: reach(1, 1) };
	}
});

describe('wrap', () => {
	it('loses no letter and keeps every line within its width', () => {
		fc.assert(
			fc.property(
				fc.string({ unit: 'grapheme', maxLength: 120 }),
				fc.double({ min: 20, max: 300, noNaN: true }),
				(text, widthPt) => {
					const lines = wrap(text, 'regular', 11, widthPt);
					const bare = (s: string) => s.normalize('NFC').replace(/\s/gu, '');
					expect(bare(lines.join(''))).toBe(bare(text));
					for (const line of lines) expect(widthOf(line, 'regular', 11, 0)).toBeLessThanOrEqual(widthPt + 1e-6);
				}
			)
		);
	});

	it('breaks at spaces and after hyphens before it breaks words', () => {
		expect(wrap('Ximena Ollerton-Urrutia', 'regular', 11, 70)).toEqual(['Ximena', 'Ollerton-', 'Urrutia']);
		expect(wrap('Ximena Ollerton-Urrutia', 'regular', 11, 80)).toEqual(['Ximena', 'Ollerton-Urrutia']);
	});
});
