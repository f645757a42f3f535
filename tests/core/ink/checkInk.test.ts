import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkInk, MOST_POINTS, MOST_STROKES } from '$core/ink/checkInk';

const stroke = {
	tool: 'pencil',
	points: [
		[10, 20, 0],
		[30, 40]
	]
};
const ink = { page: 1, strokes: [stroke] };

/** The refusal of a document that must be refused. */
function problemOf(document: unknown): { code: string; message: string } {
	const { ink: accepted, problem } = checkInk(document);
	expect(accepted).toBeUndefined();
	return problem!;
}

describe('ink that is accepted', () => {
	it('is one page, or several with the ids of election and style', () => {
		expect(checkInk(ink)).toEqual({ ink: { pages: [ink] } });
		const several = { election: 'e', style: 's', pages: [ink, { page: 3, strokes: [] }] };
		expect(checkInk(several)).toEqual({ ink: several });
	});

	it('may hold taps, empty strokes, strokes off the page, another nib and mishaps', () => {
		const strokes = [
			{ tool: 'felt', points: [[1, 1]] },
			{ tool: 'dry', points: [] },
			{ tool: 'eraser', points: [[-400, 9000]] },
			{
				tool: 'pencil',
				widthMm: 1,
				points: [
					[0, 0],
					[9, 9]
				]
			}
		];
		const mishaps = [
			{ kind: 'stain', x: 1, y: 2, radiusPt: 30, seed: 4 },
			{ kind: 'smudge', x: 1, y: 2, dx: 10, dy: 0 },
			{ kind: 'fold', at: 264, along: 'x' },
			{ kind: 'bleed', strokes: [stroke] }
		];
		expect(checkInk({ page: 2, strokes, mishaps })).toEqual({ ink: { pages: [{ page: 2, strokes, mishaps }] } });
	});
});

describe('ink that is refused', () => {
	const withPoints = (points: unknown) => ({ page: 1, strokes: [stroke, { tool: 'pencil', points }] });
	const withMishap = (mishap: unknown) => ({ ...ink, mishaps: [mishap] });

	it.each([
		[null, 'not-an-object', 'ink: expected an object, got null'],
		[[ink], 'not-an-object', 'a list of 1'],
		['ink', 'not-an-object', 'got "ink"'],
		[{ ...ink, page: 0 }, 'bad-page', 'page: expected a whole number from 1, got 0'],
		[{ ...ink, page: 1.5 }, 'bad-page', 'got 1.5'],
		[{ ...ink, page: 'x' }, 'bad-page', 'got "x"'],
		[{ strokes: [] }, 'bad-page', 'got nothing'],
		[{ pages: [] }, 'no-pages', 'at least one page'],
		[{ pages: [ink, 7] }, 'bad-page', 'pages[1]: expected {page, strokes}, got 7'],
		[{ pages: [ink], page: 1 }, 'page-and-pages', 'got both'],
		[{ pages: [ink, ink] }, 'duplicate-page', 'pages[1].page: expected each page once, got page 1 again'],
		[{ ...ink, election: 5 }, 'bad-election', 'got 5'],
		[{ ...ink, style: {} }, 'bad-style', 'got an object'],
		[{ page: 1 }, 'bad-strokes', 'strokes: expected a list of strokes, got nothing'],
		[{ page: 1, strokes: [null] }, 'bad-stroke', 'strokes[0]: expected {tool, points}, got null'],
		[{ page: 1, strokes: [{ tool: 'crayon', points: [] }] }, 'unknown-tool', 'got "crayon"'],
		[{ page: 1, strokes: [{ tool: 'toString', points: [] }] }, 'unknown-tool', 'got "toString"'],
		[{ page: 1, strokes: [{ ...stroke, widthMm: 0 }] }, 'bad-width', 'strokes[0].widthMm'],
		[withPoints('here'), 'bad-points', 'strokes[1].points'],
		[
			withPoints([
				[1, 2],
				[3, NaN]
			]),
			'bad-point',
			'strokes[1].points[1]: expected [x, y] or [x, y, tMs] of finite numbers, got [3, NaN]'
		],
		[withPoints([[1, null]]), 'bad-point', 'got [1, null]'],
		[withPoints([['1', 2]]), 'bad-point', 'got ["1", 2]'],
		[withPoints([[1]]), 'bad-point', 'got [1]'],
		[withPoints([[1, 2, 3, 4]]), 'bad-point', 'got [1, 2, 3, 4]'],
		[withPoints([[1, 2, Infinity]]), 'bad-point', 'got [1, 2, Infinity]'],
		[withPoints([{ x: 1, y: 2 }]), 'bad-point', 'got an object'],
		[withPoints([[1e9, 2]]), 'out-of-range', 'expected coordinates from -10000 to 10000 points, got [1000000000, 2]'],
		[withMishap({ kind: 'rain' }), 'bad-mishap', 'mishaps[0].kind: expected one of'],
		[withMishap({ kind: 'fold', at: '3', along: 'x' }), 'bad-mishap', 'mishaps[0].at'],
		[withMishap({ kind: 'fold', at: 3, along: 'z' }), 'bad-mishap', 'mishaps[0].along'],
		[withMishap({ kind: 'stain', x: 1, y: 1, radiusPt: 9000, seed: 1 }), 'bad-mishap', 'radiusPt'],
		[withMishap({ kind: 'smudge', x: 1, y: 1, dx: 9000, dy: 1 }), 'bad-mishap', 'at most 612 points long'],
		[
			withMishap({ kind: 'bleed', strokes: [{ tool: 'felt', points: [[1, NaN]] }] }),
			'bad-point',
			'mishaps[0].strokes[0].points[0]'
		]
	])('%j gives %s', (document, code, part) => {
		const problem = problemOf(document);
		expect(problem.code).toBe(code);
		expect(problem.message).toContain(part);
		expect(problem.message).not.toContain('\n');
	});

	it('has too many points or strokes, and says the limit and what came', () => {
		const points = new Array(MOST_POINTS + 1).fill([1, 1]);
		expect(problemOf({ page: 1, strokes: [{ tool: 'felt', points }] })).toEqual({
			code: 'too-many-points',
			message: 'strokes[0].points: expected at most 2000000 points in all, got 2000001'
		});
		const strokes = new Array(MOST_STROKES + 1).fill(stroke);
		expect(problemOf({ page: 1, strokes })).toEqual({
			code: 'too-many-strokes',
			message: 'strokes: expected at most 20000 strokes, got 20001'
		});
	});

	it('covers more paper than any ballot has', () => {
		const points = Array.from({ length: 30_000 }, (_, i) => [i % 2 ? 600 : 0, i % 700]);
		expect(problemOf({ page: 1, strokes: [{ tool: 'felt', points }] }).code).toBe('too-much-ink');
	});

	it('is refused without throwing, whatever it is', () => {
		const key = fc.constantFrom('page', 'pages', 'strokes', 'mishaps', 'tool', 'points', 'kind', 'election', 'style');
		fc.assert(
			fc.property(fc.anything({ key, maxDepth: 5, withNullPrototype: true }), (document) => {
				const { ink: accepted, problem } = checkInk(document);
				expect((accepted === undefined) !== (problem === undefined)).toBe(true);
			}),
			{ numRuns: 300 }
		);
	});
});
