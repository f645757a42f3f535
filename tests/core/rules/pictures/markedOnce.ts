import { afterName, crossBeside, middleY, ringOnLine, tickBeside } from './pen';
import type { Situation } from './picture';

/** Situations in which one choice is marked, in one way or another. */
export const MARKED_ONCE: Readonly<Record<string, Situation>> = {
	filled: {
		meaning: 'A properly filled',
		needs: ['A'],
		draw: (pen, at) => pen.place('fill', at('A')),
		sees: { A: ['fill in-target'] },
		levels: { A: 'dark', B: 'empty' }
	},
	'partly-filled': {
		meaning: 'A scrawled over in haste, less than half of it covered',
		needs: ['A'],
		draw: (pen, at) => pen.scrawl(at('A'), 4, 0.45),
		sees: { A: ['fill|scribble in-target'] },
		fills: { A: [0.3, 0.5] }
	},
	'mostly-filled': {
		meaning: 'about three quarters of A filled',
		needs: ['A'],
		draw: (pen, at) => pen.patch(at('A'), 0.78),
		sees: { A: ['fill|scribble in-target'] },
		levels: { A: 'dark' },
		fills: { A: [0.65, 0.9] }
	},
	'dot-in-target': {
		meaning: 'a dot in A',
		needs: ['A'],
		draw: (pen, at) => pen.place('dot', at('A')),
		sees: { A: ['dot in-target'] },
		levels: { A: 'empty' }
	},
	'check-in-target': {
		meaning: 'a check in A',
		needs: ['A'],
		draw: (pen, at) => pen.place('check', at('A')),
		sees: { A: ['check in-target'] }
	},
	'cross-in-target': {
		meaning: 'an X in A',
		needs: ['A'],
		draw: (pen, at) => pen.place('cross', at('A')),
		sees: { A: ['cross in-target'] }
	},
	'stroke-in-target': {
		meaning: 'one straight stroke in A',
		needs: ['A'],
		draw: (pen, at) => {
			const { x, y, width, height } = at('A').target;
			return pen.line([x + width * 0.25, y + height * 0.85], [x + width * 0.75, y + height * 0.15]);
		},
		sees: { A: ['stroke in-target'] }
	},
	'check-beside-target': {
		meaning: 'a check between A and its name, touching neither',
		needs: ['A'],
		draw: (pen, at) => tickBeside(pen, at('A')),
		sees: { A: ['check beside-target'] },
		levels: { A: 'empty' }
	},
	'cross-beside-target': {
		meaning: 'an X between A and its name, touching neither',
		needs: ['A'],
		draw: (pen, at) => crossBeside(pen, at('A')),
		sees: { A: ['cross beside-target'] },
		levels: { A: 'empty' }
	},
	'check-after-name': {
		meaning: 'a check behind A’s name',
		needs: ['A'],
		draw: (pen, at) => pen.place('after-name', at('A')),
		sees: { A: ['check after-name'] },
		levels: { A: 'empty' }
	},
	'target-ringed': {
		meaning: 'a ring around A’s target that does not touch it',
		needs: ['A'],
		draw: (pen, at) => pen.place('ring', at('A')),
		sees: { A: ['ring beside-target'] },
		levels: { A: 'empty' }
	},
	'target-ringed-touching': {
		meaning: 'a ring around A’s target that runs on its line',
		needs: ['A'],
		draw: (pen, at) => ringOnLine(pen, at('A')),
		sees: { A: ['ring touching-target'] }
	},
	'name-ringed': {
		meaning: 'A’s name ringed',
		needs: ['A'],
		draw: (pen, at) => pen.place('circle-name', at('A')),
		sees: { A: ['ring on-name'] },
		levels: { A: 'empty' }
	},
	'name-underlined': {
		meaning: 'A’s name underlined',
		needs: ['A'],
		draw: (pen, at) => pen.place('underline-name', at('A')),
		sees: { A: ['underline on-name'] },
		levels: { A: 'empty' }
	},
	'arrow-partly-joined': {
		meaning: 'A’s arrow joined half-way',
		shape: 'arrow',
		needs: ['A'],
		draw: (pen, at) => pen.place('partial', at('A')),
		sees: { A: ['stroke|join|scribble|dot in-target'] }
	},
	'filled-unseen': {
		meaning: 'A filled with so faint a pen that the machine sees nothing',
		needs: ['A'],
		draw: (pen, at) => pen.patch(at('A'), 1, 'faint').map((stroke) => ({ ...stroke, widthMm: 0.15 })),
		sees: { A: ['fill|scribble in-target'] },
		levels: { A: 'empty' }
	},
	'filled-struck-alone': {
		meaning: 'A filled and struck through, nothing else marked',
		needs: ['A'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.place('cross-out', at('A'))],
		sees: { A: ['fill in-target', 'strike on-name'] }
	},
	'contest-blank': {
		meaning: 'nothing marked',
		needs: [],
		draw: () => [],
		sees: {}
	},
	'fewer-than-seats': {
		meaning: 'vote for two, A filled',
		contest: 'several',
		needs: ['A', 'W2'],
		draw: (pen, at) => pen.place('fill', at('A')),
		sees: { A: ['fill in-target'] }
	}
};

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
	'yes-and-no': {
		meaning: 'a measure with yes and no filled',
		contest: 'measure',
		needs: ['YES', 'NO'],
		draw: (pen, at) => [...pen.place('fill', at('YES')), ...pen.place('fill', at('NO'))],
		sees: { YES: ['fill in-target'], NO: ['fill in-target'] }
	}
};
