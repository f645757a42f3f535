import type { ChoiceLayout } from '$core/layout/layout';
import type { Saying } from '$core/rules/vocabulary';
import { afterName, type Pen } from './pen';
import type { At, Situation, Words } from './picture';

const lineOf = (at: At, line: string): Words['box'] => {
	const { writeIn, choice } = at(line);
	if (!writeIn) throw new RangeError(`lineOf: expected a write-in line at "${choice}", found none`);
	return writeIn;
};

const onLine =
	(says: Saying, names?: string) =>
	(at: At): readonly Words[] => [{ box: lineOf(at, 'W'), says, ...(names === undefined ? {} : { names }) }];

/** Where somebody writes who writes over a printed name. */
const overName = ({ x, y, height }: Words['box']): Words['box'] => ({ x, y: y - 4, width: 110, height: height + 5 });

/** Room for a name behind a printed one. */
const nameBehind = (row: ChoiceLayout): Words['box'] => ({ ...afterName(row), width: 90 });

/** A name on W's line, with or without its target filled. */
const written = (pen: Pen, at: At, filled: boolean) => [
	...pen.write(lineOf(at, 'W')),
	...(filled ? pen.place('fill', at('W')) : [])
];

const NAME_AND_FILL = ['writing write-in', 'fill in-target'];

/** A name written and its target filled, and nothing else. */
export const nameWritten: Pick<Situation, 'needs' | 'draw' | 'words' | 'sees'> = {
	needs: ['W'],
	draw: (pen, at) => written(pen, at, true),
	words: onLine('name'),
	sees: { W: NAME_AND_FILL }
};

/** Situations with a write-in line. */
export const WRITTEN_IN: Readonly<Record<string, Situation>> = {
	'written-target-empty': {
		meaning: 'a name on the write-in line, its target empty',
		needs: ['W'],
		draw: (pen, at) => written(pen, at, false),
		words: onLine('name'),
		sees: { W: ['writing write-in'] },
		levels: { W: 'empty' }
	},
	'written-and-filled': { ...nameWritten, meaning: 'a name on the write-in line, its target filled' },
	'check-and-written-check': {
		meaning: 'vote for two, a check in A, a check in the write-in target and a name on its line',
		contest: 'several',
		needs: ['A', 'W'],
		draw: (pen, at) => [...pen.place('check', at('A')), ...pen.write(lineOf(at, 'W')), ...pen.place('check', at('W'))],
		words: onLine('name'),
		sees: { A: ['check in-target'], W: ['writing write-in', 'check in-target'] }
	},
	'name-over-printed': {
		meaning: 'nothing filled, another name written over B’s printed name',
		needs: ['B'],
		draw: (pen, at) => pen.write(overName(at('B').name)),
		words: (at) => [{ box: overName(at('B').name), says: 'name' }],
		sees: { B: ['scribble on-name'] },
		levels: { B: 'empty' }
	},
	'name-elsewhere': {
		meaning: 'nothing filled, another name behind A’s printed name, off the write-in line',
		needs: ['A'],
		draw: (pen, at) => pen.write(nameBehind(at('A'))),
		words: (at) => [{ box: nameBehind(at('A')), says: 'name' }],
		sees: { A: ['writing after-name'] },
		levels: { A: 'empty' }
	},
	'yes-written': {
		meaning: 'a measure with nothing filled, "yes" behind the answer yes',
		contest: 'measure',
		needs: ['YES', 'NO'],
		draw: (pen, at) => pen.write(afterName(at('YES'))),
		words: (at) => [{ box: afterName(at('YES')), says: 'yes' }],
		sees: { YES: ['writing after-name'] },
		levels: { YES: 'empty', NO: 'empty' }
	},
	'no-filled-yes-written': {
		meaning: 'a measure with no filled, "yes" behind the answer yes',
		contest: 'measure',
		needs: ['YES', 'NO'],
		draw: (pen, at) => [...pen.place('fill', at('NO')), ...pen.write(afterName(at('YES')))],
		words: (at) => [{ box: afterName(at('YES')), says: 'yes' }],
		sees: { YES: ['writing after-name'], NO: ['fill in-target'] },
		levels: { YES: 'empty', NO: 'dark' }
	},
	'filled-and-empty-line': {
		meaning: 'A filled, the write-in target filled, no name on its line',
		needs: ['A', 'W'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.place('fill', at('W'))],
		sees: { A: ['fill in-target'], W: ['fill in-target'] }
	},
	'empty-line-alone': {
		meaning: 'only the write-in target filled, no name on its line',
		needs: ['W'],
		draw: (pen, at) => pen.place('fill', at('W')),
		sees: { W: ['fill in-target'] }
	},
	'filled-and-same-name': {
		meaning: 'A filled, A’s name on the write-in line, its target filled',
		needs: ['A', 'W'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...written(pen, at, true)],
		words: onLine('printed-name', 'A'),
		sees: { A: ['fill in-target'], W: NAME_AND_FILL }
	},
	'filled-and-same-name-unfilled': {
		meaning: 'A filled, A’s name on the write-in line, its target empty',
		needs: ['A', 'W'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...written(pen, at, false)],
		words: onLine('printed-name', 'A'),
		sees: { A: ['fill in-target'], W: ['writing write-in'] }
	},
	'printed-name-written': {
		meaning: 'A’s name on the write-in line, its target filled, nothing at A',
		needs: ['A', 'W'],
		draw: (pen, at) => written(pen, at, true),
		words: onLine('printed-name', 'A'),
		sees: { W: NAME_AND_FILL },
		levels: { A: 'empty' }
	},
	'filled-and-other-name': {
		meaning: 'A filled, another name on the write-in line, its target filled',
		needs: ['A', 'W'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...written(pen, at, true)],
		words: onLine('name'),
		sees: { A: ['fill in-target'], W: NAME_AND_FILL }
	},
	'filled-and-other-name-unfilled': {
		meaning: 'A filled, another name on the write-in line, its target empty',
		needs: ['A', 'W'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...written(pen, at, false)],
		words: onLine('name'),
		sees: { A: ['fill in-target'], W: ['writing write-in'] },
		levels: { W: 'empty' }
	},
	'part-of-name-written': {
		...nameWritten,
		meaning: 'a last name alone on the write-in line, its target filled',
		words: onLine('part-of-name')
	},
	'same-name-twice': {
		meaning: 'vote for two, one name on both write-in lines, both targets filled',
		contest: 'several',
		needs: ['W', 'W2'],
		draw: (pen, at) => [...written(pen, at, true), ...pen.write(lineOf(at, 'W2')), ...pen.place('fill', at('W2'))],
		words: (at) => [
			{ box: lineOf(at, 'W'), says: 'name' },
			{ box: lineOf(at, 'W2'), says: 'repeated-name' }
		],
		sees: { W: NAME_AND_FILL, W2: NAME_AND_FILL }
	}
};
