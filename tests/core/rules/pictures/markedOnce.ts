import { crossAt, crossBeside, middleY, ringOnLine, tickBeside } from './pen';
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
	'check-unseen': {
		meaning: 'a check in A, so faint that the machine sees nothing',
		needs: ['A'],
		draw: (pen, at) => pen.place('check', at('A'), 'faint'),
		sees: { A: ['check in-target'] },
		levels: { A: 'empty' }
	},
	'cross-unseen': {
		meaning: 'an X in A, so faint that the machine sees nothing',
		needs: ['A'],
		draw: (pen, at) => pen.place('cross', at('A'), 'faint'),
		sees: { A: ['cross in-target'] },
		levels: { A: 'empty' }
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
	'cross-between-targets': {
		meaning: 'an X half-way between the targets of A and B, touching neither',
		needs: ['A', 'B'],
		draw: (pen, at) => {
			const [a, b] = [at('A').target, at('B').target];
			return crossAt(pen, a.x + a.width / 2, (middleY(a) + middleY(b)) / 2);
		},
		sees: { B: ['cross beside-target'] },
		levels: { A: 'empty', B: 'empty' }
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
	'line-target-to-name': {
		meaning: 'a line from A’s target to A’s name',
		needs: ['A'],
		draw: (pen, at) => pen.place('join-arrow', at('A')),
		sees: { A: ['join in-target'] },
		levels: { A: 'unsure' }
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
