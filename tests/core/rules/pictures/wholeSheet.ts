import type { Situation } from './picture';
import { nameWritten } from './writtenIn';

/** An empty stretch of the foot of a page, clear of contests and of the printed footer. */
const MARGIN = { x: 60, y: 700, width: 120, height: 22 };

const filledA: Pick<Situation, 'needs' | 'draw' | 'sees'> = {
	needs: ['A'],
	draw: (pen, at) => pen.place('fill', at('A')),
	sees: { A: ['fill in-target'] }
};

const ranking = (...cells: readonly string[]): Pick<Situation, 'sheet' | 'contest' | 'needs' | 'draw' | 'sees'> => ({
	sheet: 'ranked',
	contest: 'ranked',
	needs: cells,
	draw: (pen, at) => cells.flatMap((cell) => pen.place('fill', at(cell))),
	sees: Object.fromEntries(cells.map((cell) => [cell, ['fill in-target']]))
});

/** Situations about the whole sheet, and rankings. */
export const WHOLE_SHEET: Readonly<Record<string, Situation>> = {
	signed: {
		...filledA,
		meaning: 'filled normally, a signature in the margin',
		margin: { box: MARGIN, says: 'identity' }
	},
	remarked: {
		...filledA,
		meaning: 'filled normally, a friendly note in the margin',
		margin: { box: MARGIN, says: 'remark' }
	},
	damaged: { ...filledA, meaning: 'filled normally on a torn sheet', told: { damaged: true } },
	'two-parties': {
		...filledA,
		meaning: 'contests of both parties filled, no party preference marked',
		sheet: 'parties',
		contest: 'partisan',
		filled: ['senate-orchard', 'assembly-orchard'],
		blank: ['party-preference']
	},
	'two-parties-preferred': {
		...filledA,
		meaning: 'contests of both parties filled, the party of A marked as preferred',
		sheet: 'parties',
		contest: 'partisan',
		filled: ['senate-orchard', 'assembly-orchard']
	},
	'one-party': {
		...filledA,
		meaning: 'contests of one party filled, no party preference marked',
		sheet: 'parties',
		contest: 'partisan',
		blank: ['party-preference']
	},
	'party-write-in': {
		...nameWritten,
		meaning:
			'in one party’s contest nothing but a name on the write-in line and its target filled, no other party marked',
		sheet: 'parties',
		contest: 'partisan',
		blank: ['party-preference', 'assembly-lantern']
	},
	'ranked-in-order': { ...ranking('A1', 'B2', 'C3'), meaning: 'A first, B second, C third' },
	'ranked-same': { ...ranking('A1', 'B2', 'C2'), meaning: 'A first, B and C both second' },
	'ranked-same-first': { ...ranking('A1', 'B1'), meaning: 'A and B both first' },
	'ranked-one-skip': { ...ranking('A1', 'B3'), meaning: 'A first, B third' },
	'ranked-two-skips': { ...ranking('A1', 'B4'), meaning: 'A first, B fourth' }
};
