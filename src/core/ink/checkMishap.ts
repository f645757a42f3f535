import type { InkProblem } from './checkInk';
import { FARTHEST_PT } from './stroke';

/** Largest stain and longest smudge, in points: a page's width. They keep a file from stalling us. */
const LARGEST_RADIUS_PT = 612;
const LONGEST_SMUDGE_PT = 612;

const NUMBERS_OF: Readonly<Record<string, readonly string[]>> = {
	stain: ['x', 'y', 'radiusPt', 'seed'],
	smudge: ['x', 'y', 'dx', 'dy'],
	fold: ['at'],
	bleed: []
};

/** The first problem of a mishap in an ink document, or undefined. `checkStroke` checks the strokes of a bleed. */
export function checkMishap(
	where: string,
	mishap: unknown,
	checkStroke: (where: string, stroke: unknown) => InkProblem | undefined
): InkProblem | undefined {
	const bad = (path: string, expected: string): InkProblem => ({
		code: 'bad-mishap',
		message: `${where}${path}: expected ${expected}`
	});
	if (typeof mishap !== 'object' || mishap === null) return bad('', 'an object with a "kind"');
	const fields = mishap as Readonly<Record<string, unknown>>;
	const { kind, along, strokes, radiusPt, dx, dy } = fields;
	const numbers = typeof kind === 'string' && Object.hasOwn(NUMBERS_OF, kind) ? NUMBERS_OF[kind] : undefined;
	if (!numbers) return bad('.kind', `one of ${Object.keys(NUMBERS_OF).join(', ')}`);
	for (const name of numbers) {
		const value = fields[name];
		const largest = name === 'seed' ? Number.MAX_SAFE_INTEGER : FARTHEST_PT;
		if (typeof value !== 'number' || !(Math.abs(value) <= largest))
			return bad(`.${name}`, `a number from -${largest} to ${largest}`);
	}
	if (kind === 'stain' && !((radiusPt as number) > 0 && (radiusPt as number) <= LARGEST_RADIUS_PT))
		return bad('.radiusPt', `more than 0 and at most ${LARGEST_RADIUS_PT}`);
	if (kind === 'smudge' && Math.hypot(dx as number, dy as number) > LONGEST_SMUDGE_PT)
		return bad('', `a smudge at most ${LONGEST_SMUDGE_PT} points long`);
	if (kind === 'fold' && along !== 'x' && along !== 'y') return bad('.along', '"x" or "y"');
	if (kind !== 'bleed') return undefined;
	if (!Array.isArray(strokes)) return bad('.strokes', 'a list of strokes');
	for (let i = 0; i < strokes.length; i++) {
		const problem = checkStroke(`${where}.strokes[${i}]`, strokes[i]);
		if (problem) return problem;
	}
	return undefined;
}
