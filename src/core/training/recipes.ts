import type { Saying } from '../rules/vocabulary';
import type { CaseMark, CaseMarkKind } from './contestCase';
import type { Tool } from '../ink/stroke';

/** What a recipe may draw on: rows in the order in which chance took them, and the chance itself. */
export interface Ingredients {
	/** Choices with a printed name, in any order; `rows[0]` is the row that the recipe is about. */
	readonly rows: readonly string[];
	readonly writeIn: string | undefined;
	readonly voteFor: number;
	/** A number between the two. */
	readonly between: (least: number, most: number) => number;
	readonly oneOf: <T>(list: readonly [T, ...T[]]) => T;
}

/** A mark without the hand that makes it, which is added later. */
export type Drawn = Omit<CaseMark, 'seed'>;

export interface Prepared {
	readonly marks: readonly Drawn[];
	readonly says?: readonly { readonly choice: string; readonly says: Saying; readonly names?: string }[];
}

/** One way in which a contest comes to a review table. */
export interface Recipe {
	readonly id: string;
	/** What the contest must have for it. */
	readonly needs?: 'write-in' | 'several-seats';
	readonly prepare: (from: Ingredients) => Prepared;
}

const PENS: readonly [Tool, ...Tool[]] = ['ballpoint', 'ballpoint', 'ballpoint', 'pencil', 'felt'];
/** Letters of this size run together under a felt-tip. */
const FINE_PENS: readonly [Tool, ...Tool[]] = ['ballpoint', 'ballpoint', 'pencil'];

type More = Partial<Pick<Drawn, 'tool' | 'share' | 'shiftPt'>>;
const mark = (choice: string | undefined, kind: CaseMarkKind, more: More = {}): Drawn => {
	if (choice === undefined) throw new RangeError(`recipes: expected a row for "${kind}", got none`);
	return { choice, kind, tool: 'ballpoint', ...more };
};
const alone = (id: string, draw: (from: Ingredients) => Drawn): Recipe => ({
	id,
	prepare: (from) => ({ marks: [draw(from)] })
});
const several = (id: string, draw: (from: Ingredients) => readonly Drawn[], needs?: Recipe['needs']): Recipe => ({
	id,
	...(needs ? { needs } : {}),
	prepare: (from) => ({ marks: draw(from) })
});

/** A mark that a hand may put into a target in place of a fill. */
const GLYPHS: readonly [CaseMarkKind, ...CaseMarkKind[]] = ['check', 'cross'];

/**
 * The ways in which contests come to a table, each a few marks with chance in them. What any of them comes to is for a
 * rulebook. Shares and shifts were chosen by eye, so that a kind runs from plain to doubtful.
 */
export const RECIPES: readonly Recipe[] = [
	// One mark in a target, from plain to hardly there.
	alone('part-filled', ({ rows, between, oneOf }) =>
		mark(rows[0], 'partial', { tool: oneOf(PENS), share: between(0.12, 1) })
	),
	alone('unfinished-fill', ({ rows, between, oneOf }) =>
		mark(rows[0], 'fill', { tool: oneOf(PENS), share: between(0.35, 0.9) })
	),
	alone('light', ({ rows, between }) => mark(rows[0], 'light', { share: between(0.3, 1) })),
	alone('faint-fill', ({ rows, between }) => mark(rows[0], 'fill', { tool: 'faint', share: between(0.4, 1) })),
	alone('off-the-target', ({ rows, between, oneOf }) =>
		mark(rows[0], 'fill', { tool: oneOf(PENS), shiftPt: [between(3, 13), between(-3, 3)] })
	),
	alone('check', ({ rows, between, oneOf }) =>
		mark(rows[0], 'check', { tool: oneOf(PENS), share: between(0.4, 1), shiftPt: [between(-4, 6), between(-3, 3)] })
	),
	alone('cross', ({ rows, between, oneOf }) =>
		mark(rows[0], 'cross', { tool: oneOf(PENS), share: between(0.55, 1), shiftPt: [between(-7, 4), between(-4, 4)] })
	),
	alone('dot', ({ rows, between, oneOf }) =>
		mark(rows[0], 'dot', { tool: oneOf(PENS), shiftPt: [between(-8, 8), between(-3, 3)] })
	),
	alone('ring-of-target', ({ rows, between, oneOf }) =>
		mark(rows[0], 'ring', { tool: oneOf(PENS), share: between(0.6, 1), shiftPt: [between(-2, 2), between(-1, 1)] })
	),
	// One mark away from the target.
	alone('name-ringed', ({ rows, between, oneOf }) =>
		mark(rows[0], 'circle-name', { tool: oneOf(PENS), share: between(0.7, 1) })
	),
	alone('name-underlined', ({ rows, between, oneOf }) =>
		mark(rows[0], 'underline-name', { tool: oneOf(PENS), share: between(0.5, 1), shiftPt: [0, between(-1, 2.5)] })
	),
	alone('beside', ({ rows, between, oneOf }) =>
		mark(rows[0], 'beside', { tool: oneOf(PENS), shiftPt: [between(-3, 4), between(-2, 2)] })
	),
	alone('behind-the-name', ({ rows, between, oneOf }) =>
		mark(rows[0], 'after-name', { tool: oneOf(PENS), shiftPt: [between(-6, 20), between(-3, 3)] })
	),
	alone('old-arrow', ({ rows, between, oneOf }) =>
		mark(rows[0], 'join-arrow', { tool: oneOf(PENS), share: between(0.5, 1) })
	),
	several('between-two', ({ rows, between, oneOf }) => [
		mark(rows[0], 'between', { tool: oneOf(PENS), shiftPt: [between(-3, 3), between(-3.5, 3.5)] })
	]),
	alone('struck-only', ({ rows, oneOf }) => mark(rows[0], oneOf(['strike-name', 'cross-out']))),
	// A stray line, with and without a mark.
	alone('stray-alone', ({ rows, between, oneOf }) =>
		mark(rows[0], 'stray', { tool: oneOf(PENS), share: between(0.4, 1), shiftPt: [between(-3, 6), between(-3, 3)] })
	),
	several('filled-and-stray', ({ rows, between }) => [
		mark(rows[0], 'fill'),
		mark(rows[1], 'stray', { share: between(0.5, 1), shiftPt: [between(-6, 4), between(-3, 3)] })
	]),
	several('filled-and-dot', ({ rows, between, oneOf }) => [
		mark(rows[0], 'fill'),
		mark(rows[1], 'dot', { tool: oneOf(PENS), shiftPt: [between(-6, 6), between(-3, 3)] })
	]),
	several('filled-and-ring', ({ rows, oneOf }) => [
		mark(rows[0], 'fill'),
		mark(rows[1], oneOf(['circle-name', 'underline-name', 'after-name']))
	]),
	// Two marks or more.
	several('two-filled', ({ rows, between, oneOf }) => [
		mark(rows[0], 'fill', { tool: oneOf(PENS) }),
		mark(rows[1], 'fill', { tool: oneOf(PENS), share: between(0.45, 1) })
	]),
	several('filled-and-glyph', ({ rows, between, oneOf }) => [
		mark(rows[0], 'fill', { share: between(0.6, 1) }),
		mark(rows[1], oneOf(GLYPHS), { tool: oneOf(PENS), share: between(0.5, 1) })
	]),
	several('filled-and-light', ({ rows, between }) => [
		mark(rows[0], 'fill'),
		mark(rows[1], 'light', { share: between(0.3, 1) })
	]),
	several('two-filled-one-ringed', ({ rows, oneOf }) => [
		mark(rows[0], 'fill'),
		mark(rows[1], 'fill'),
		mark(rows[0], oneOf(['circle-name', 'underline-name', 'after-name']))
	]),
	// Changes of mind.
	several('crossed-out-and-another', ({ rows, between, oneOf }) => [
		mark(rows[0], 'fill', { share: between(0.5, 1) }),
		mark(rows[0], oneOf(['cross-out', 'strike-name'])),
		mark(rows[1], oneOf(['fill', 'check']))
	]),
	several('crossed-out-alone', ({ rows, between, oneOf }) => [
		mark(rows[0], 'fill', { share: between(0.5, 1) }),
		mark(rows[0], oneOf(['cross-out', 'strike-name']))
	]),
	several('both-crossed-out', ({ rows, oneOf }) => [
		mark(rows[0], 'fill'),
		mark(rows[0], 'cross-out'),
		mark(rows[1], 'fill'),
		mark(rows[1], oneOf(['cross-out', 'strike-name']))
	]),
	several('rubbed-out-and-another', ({ rows, between, oneOf }) => [
		mark(rows[0], 'fill', { tool: oneOf(['pencil', 'ballpoint']) }),
		mark(rows[0], 'erase', { share: between(0.35, 1) }),
		mark(rows[1], 'fill')
	]),
	several('rubbed-out-alone', ({ rows, between, oneOf }) => [
		mark(rows[0], 'fill', { tool: oneOf(['pencil', 'pencil', 'ballpoint']) }),
		mark(rows[0], 'erase', { share: between(0.3, 1) })
	]),
	// Writing. A person says what it is, or nobody can.
	{
		id: 'written-no-target',
		needs: 'write-in',
		prepare: ({ writeIn, oneOf }) => ({
			marks: [mark(writeIn, 'write-in', { tool: oneOf(FINE_PENS) })],
			says: [{ choice: writeIn ?? '', says: 'name' }]
		})
	},
	several('written-unmarked-name', ({ writeIn, oneOf }) => [mark(writeIn, 'fill', { tool: oneOf(PENS) })], 'write-in'),
	{
		id: 'written-and-printed',
		needs: 'write-in',
		prepare: ({ rows, writeIn, oneOf }) => ({
			marks: [mark(rows[0], oneOf(['fill', 'check'])), mark(writeIn, 'fill'), mark(writeIn, 'write-in')],
			says: [{ choice: writeIn ?? '', says: 'name' }]
		})
	},
	{
		id: 'written-target-light',
		needs: 'write-in',
		prepare: ({ writeIn, between, oneOf }) => ({
			marks: [
				mark(writeIn, oneOf(['light', 'partial', 'check']), { share: between(0.3, 1) }),
				mark(writeIn, 'write-in', { tool: oneOf(FINE_PENS) })
			],
			says: [{ choice: writeIn ?? '', says: 'name' }]
		})
	},
	{
		id: 'printed-name-written',
		needs: 'write-in',
		prepare: ({ rows, writeIn, oneOf }) => ({
			marks: [...(oneOf([true, false]) ? [mark(rows[0], 'fill')] : []), mark(writeIn, 'write-in')],
			says: [{ choice: writeIn ?? '', says: 'printed-name', ...(rows[0] === undefined ? {} : { names: rows[0] }) }]
		})
	},
	{
		id: 'word-beside',
		prepare: ({ rows, oneOf }) => ({
			marks: [mark(rows[0], 'fill'), mark(rows[1], 'fill'), mark(rows[0], 'note')],
			says: [{ choice: rows[0] ?? '', says: oneOf<Saying>(['support', 'against', 'no', 'yes']) }]
		})
	},
	several('word-nobody-can-read', ({ rows, between }) => [
		mark(rows[0], 'fill', { share: between(0.5, 1) }),
		mark(rows[0], 'note')
	]),
	// More than one vote allowed.
	several(
		'one-too-many',
		({ rows, voteFor, between, oneOf }) =>
			rows
				.slice(0, voteFor + 1)
				.map((row, i) =>
					i < voteFor
						? mark(row, 'fill')
						: mark(row, oneOf(['fill', 'check', 'light', 'dot']), { share: between(0.4, 1) })
				),
		'several-seats'
	),
	several(
		'fewer-than-allowed',
		({ rows, voteFor, between, oneOf }) =>
			rows
				.slice(0, voteFor - 1)
				.map((row) => mark(row, oneOf(['fill', 'check', 'partial']), { share: between(0.5, 1) })),
		'several-seats'
	),
	several('nothing', () => [])
];
