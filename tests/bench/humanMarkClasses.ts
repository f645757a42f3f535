import type { MarkKind } from '../../src/core/marks/mark';

/**
 * How a human sample is placed on the ballot.
 * - `at-target`: its longer side 0.8 to 2.5 widths of the target, its middle within a quarter of the target's
 *   height of the target's middle;
 * - `in-target`: fitted to the target's inside, 0.85 to 1.1 of it each way;
 * - `small`: 0.5 to 1.3 mm, in the target or beside it;
 * - `around`: around the target (1.25 to 1.9 of its width) or around the name (1.05 to 1.25 of its width);
 * - `under-name`, `through-name`: 0.8 to 1.1 of the name's width, drawn flat (at most 6 degrees off), just
 *   under it or through the middle of its letters;
 * - `over-name`: on the name, 0.5 to 1.1 of its width, 1 to 2.2 of its height;
 * - `words`: three to six samples of one writer side by side, 3 to 5.5 mm high, on a write-in line or after a name;
 * - `outlined`: so that the outline that its writer drew first falls on the target's (that outline is not drawn).
 */
export type Placement =
	'at-target' | 'in-target' | 'small' | 'around' | 'under-name' | 'through-name' | 'over-name' | 'words' | 'outlined';

export interface ClassRule {
	readonly file: 'paper-symbols' | 'quickdraw-marks' | 'letters-latin';
	readonly name: string;
	readonly placement: Placement;
	/** Kinds that are right for this class at this placement. */
	readonly kinds: readonly MarkKind[];
	/** What the form does not decide (a v may be a check, a letter or nothing): told, but not in the overall figure. */
	readonly lookAlike?: true;
}

/** Class, placement and the kinds that are right there. `latin_*` stands for every letter. */
export const CLASS_RULES: readonly ClassRule[] = [
	{ file: 'paper-symbols', name: 'x', placement: 'at-target', kinds: ['cross'] },
	{ file: 'paper-symbols', name: 'slash', placement: 'at-target', kinds: ['stroke'] },
	{ file: 'paper-symbols', name: 'minus', placement: 'at-target', kinds: ['stroke', 'join'] },
	{ file: 'paper-symbols', name: 'dot', placement: 'in-target', kinds: ['fill'] },
	{ file: 'paper-symbols', name: 'dot', placement: 'small', kinds: ['dot'] },
	{ file: 'paper-symbols', name: '0', placement: 'around', kinds: ['ring'] },
	{ file: 'paper-symbols', name: 'w', placement: 'words', kinds: ['writing'] },
	{ file: 'paper-symbols', name: 'y', placement: 'words', kinds: ['writing'] },
	{ file: 'quickdraw-marks', name: 'fill_round', placement: 'in-target', kinds: ['fill'] },
	{ file: 'quickdraw-marks', name: 'fill_block', placement: 'in-target', kinds: ['fill'] },
	{ file: 'quickdraw-marks', name: 'hatch', placement: 'in-target', kinds: ['fill', 'scribble'] },
	{ file: 'quickdraw-marks', name: 'fill_in_outline', placement: 'outlined', kinds: ['fill', 'scribble'] },
	{ file: 'quickdraw-marks', name: 'circle', placement: 'around', kinds: ['ring'] },
	{ file: 'quickdraw-marks', name: 'ring_retraced', placement: 'around', kinds: ['ring'] },
	{ file: 'quickdraw-marks', name: 'line_horizontal', placement: 'under-name', kinds: ['underline'] },
	{ file: 'quickdraw-marks', name: 'line_horizontal', placement: 'through-name', kinds: ['strike'] },
	{ file: 'quickdraw-marks', name: 'line_vertical', placement: 'at-target', kinds: ['stroke'] },
	{ file: 'quickdraw-marks', name: 'line_diagonal', placement: 'at-target', kinds: ['stroke'] },
	{ file: 'quickdraw-marks', name: 'scribble', placement: 'over-name', kinds: ['scribble'] },
	// The collection suggests "cross-out/scribble" for zigzags and "scribble" for squiggles. Drawn over a name both cross it
	// out: rulebooks take a strike and a scribble there for the same, and voters are told the same.
	{ file: 'quickdraw-marks', name: 'squiggle', placement: 'over-name', kinds: ['scribble', 'strike'] },
	{ file: 'quickdraw-marks', name: 'zigzag', placement: 'over-name', kinds: ['scribble', 'strike'] },
	{ file: 'letters-latin', name: 'latin_*', placement: 'words', kinds: ['writing'] },
	{
		file: 'paper-symbols',
		name: 'plus',
		placement: 'at-target',
		kinds: ['cross'],
		lookAlike: true
	},
	{
		file: 'paper-symbols',
		name: '1',
		placement: 'at-target',
		kinds: ['stroke', 'check', 'unsure'],
		lookAlike: true
	},
	{
		file: 'paper-symbols',
		name: 'z',
		placement: 'at-target',
		kinds: ['scribble', 'writing', 'unsure'],
		lookAlike: true
	},
	{
		file: 'letters-latin',
		name: 'latin_v',
		placement: 'at-target',
		kinds: ['check', 'writing', 'unsure'],
		lookAlike: true
	},
	{
		file: 'letters-latin',
		name: 'latin_x',
		placement: 'at-target',
		kinds: ['cross', 'writing', 'unsure'],
		lookAlike: true
	},
	{
		file: 'quickdraw-marks',
		name: 'circle_other',
		placement: 'around',
		kinds: ['ring', 'unsure', 'scribble', 'writing'],
		lookAlike: true
	},
	{
		file: 'quickdraw-marks',
		name: 'line_other',
		placement: 'at-target',
		kinds: ['stroke', 'check', 'scribble', 'unsure'],
		lookAlike: true
	}
];
