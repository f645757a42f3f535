import { afterName, crossBeside, middleY } from './pen';
import type { Situation } from './picture';

/** Situations in which A is filled and something else happens elsewhere in the contest. */
export const FILLED_AND_MORE: Readonly<Record<string, Situation>> = {
	'two-filled': {
		meaning: 'A and B filled',
		needs: ['A', 'B'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.place('fill', at('B'))],
		sees: { A: ['fill in-target'], B: ['fill in-target'] },
		levels: { A: 'dark', B: 'dark' }
	},
	'filled-touching-other': {
		meaning: 'A filled with a stroke that strays until it touches B’s target',
		needs: ['A', 'B'],
		draw: (pen, at) => {
			const from = at('A').target;
			const to = at('B').target;
			return [
				...pen.place('fill', at('A')),
				...pen.line(
					[from.x + from.width * 0.5, middleY(from)],
					[from.x + from.width * 0.35, middleY(from) + 8],
					[to.x + to.width * 0.3, to.y + 1]
				)
			];
		},
		sees: { A: ['fill|scribble in-target +B'] },
		isUnsure: true,
		levels: { A: 'dark', B: 'empty' }
	},
	'filled-trace': {
		meaning: 'A filled, a small stroke at the edge of B’s target',
		needs: ['A', 'B'],
		draw: (pen, at) => {
			const { x, width } = at('B').target;
			const y = middleY(at('B').target);
			return [...pen.place('fill', at('A')), ...pen.line([x + width - 0.8, y + 0.3], [x + width + 4.6, y - 1.2])];
		},
		sees: { A: ['fill in-target'], B: ['stroke|dot touching-target'] },
		levels: { B: 'empty' }
	},
	'filled-other-dot': {
		meaning: 'A filled, a dot in B',
		needs: ['A', 'B'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.place('dot', at('B'))],
		sees: { A: ['fill in-target'], B: ['dot in-target'] },
		levels: { B: 'empty' }
	},
	'filled-other-half': {
		meaning: 'A filled, B scrawled over so that about half of it is covered',
		needs: ['A', 'B'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.scrawl(at('B'), 5, 0.72)],
		sees: { A: ['fill in-target'], B: ['fill|scribble in-target'] },
		levels: { B: 'dark' },
		fills: { B: [0.45, 0.6] }
	},
	'filled-other-cross': {
		meaning: 'A filled, an X in B',
		needs: ['A', 'B'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.place('cross', at('B'))],
		sees: { A: ['fill in-target'], B: ['cross in-target'] }
	},
	'filled-cross-beside': {
		meaning: 'A filled, an X between A’s target and its name',
		needs: ['A'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...crossBeside(pen, at('A'))],
		sees: { A: ['fill in-target', 'cross beside-target'] }
	},
	'scribbled-two-stray': {
		meaning: 'vote for two, A and B scrawled over, the last line of B’s scrawl running out of its target',
		contest: 'several',
		needs: ['A', 'B', 'W2'],
		draw: (pen, at) => {
			const { x, y, width, height } = at('B').target;
			const turns = 5;
			const scrawl = Array.from(
				{ length: turns + 1 },
				(_, i) => [x + width * (0.14 + (0.72 * i) / turns), y + height * (i % 2 === 0 ? 0.16 : 0.84)] as const
			);
			return [...pen.scrawl(at('A'), turns, 0.72), ...pen.line(...scrawl, [x + width + 1, y + height + 3])];
		},
		sees: { A: ['scribble in-target'], B: ['scribble in-target'] },
		levels: { A: 'dark', B: 'dark' }
	},
	'two-filled-one-ringed': {
		meaning: 'A and B filled, A’s name ringed',
		needs: ['A', 'B'],
		draw: (pen, at) => [
			...pen.place('fill', at('A')),
			...pen.place('circle-name', at('A')),
			...pen.place('fill', at('B'))
		],
		sees: { A: ['fill in-target', 'ring on-name'], B: ['fill in-target'] }
	},
	'two-filled-note': {
		meaning: 'A and B filled, "this one" written behind A',
		needs: ['A', 'B'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.write(afterName(at('A'))), ...pen.place('fill', at('B'))],
		words: (at) => [{ box: afterName(at('A')), says: 'support' }],
		sees: { A: ['fill in-target', 'writing after-name'], B: ['fill in-target'] }
	},
	'two-filled-word-no': {
		meaning: 'A and B filled, "no" written behind B',
		needs: ['A', 'B'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.place('fill', at('B')), ...pen.write(afterName(at('B')))],
		words: (at) => [{ box: afterName(at('B')), says: 'no' }],
		sees: { A: ['fill in-target'], B: ['fill in-target', 'writing after-name'] }
	},
	'title-struck': {
		meaning: 'A filled, the title of the contest struck out with a line to and fro',
		needs: ['A'],
		draw: (pen, at, { x, y, width }) => {
			const there = Array.from({ length: 9 }, (_, i) => [x + (i % 2 === 0 ? 0 : width), y + 3 + 1.4 * i] as const);
			return [...pen.place('fill', at('A')), ...pen.line(...there)];
		},
		sees: { A: ['fill in-target'], none: ['scribble heading'] }
	},
	'title-line': {
		meaning: 'A filled, one line through the title of the contest',
		needs: ['A'],
		draw: (pen, at, { x, y, width }) => [
			...pen.place('fill', at('A')),
			...pen.line([x - 2, y + 8], [x + width + 2, y + 9])
		],
		sees: { A: ['fill in-target'], none: ['stroke heading'] }
	},
	'title-zigzag': {
		meaning: 'A filled, a zigzag over the title of the contest that may be a note as well',
		needs: ['A'],
		draw: (pen, at, { x, y, width }) => {
			const turns = Array.from(
				{ length: 30 },
				(_, i) => [x + 2 + ((width - 4) * i) / 29, y + (i % 2 === 0 ? 3 : 15)] as const
			);
			return [...pen.place('fill', at('A')), ...pen.line(...turns)];
		},
		words: (_at, { x, y, width }) => [{ box: { x, y, width, height: 18 }, says: 'remark' }],
		// The reader takes a busy line off targets and names for a note.
		sees: { A: ['fill in-target'], none: ['writing heading'] }
	},
	'yes-and-no': {
		meaning: 'a measure with yes and no filled',
		contest: 'measure',
		needs: ['YES', 'NO'],
		draw: (pen, at) => [...pen.place('fill', at('YES')), ...pen.place('fill', at('NO'))],
		sees: { YES: ['fill in-target'], NO: ['fill in-target'] }
	}
};
