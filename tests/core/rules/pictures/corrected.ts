import type { Situation } from './picture';

/** Situations in which something is struck through or rubbed out. */
export const CORRECTED: Readonly<Record<string, Situation>> = {
	'others-struck': {
		meaning: 'B and C struck through, nothing at A',
		needs: ['A', 'B', 'C'],
		draw: (pen, at) => [...pen.place('strike-name', at('B')), ...pen.place('strike-name', at('C'))],
		sees: { B: ['strike on-name'], C: ['strike on-name'] },
		levels: { A: 'empty', B: 'empty', C: 'empty' }
	},
	'two-filled-mark-struck': {
		meaning: 'A and B filled, a line through B’s mark and on through its name',
		needs: ['A', 'B'],
		draw: (pen, at) => [
			...pen.place('fill', at('A')),
			...pen.place('fill', at('B')),
			...pen.place('cross-out', at('B'))
		],
		sees: { A: ['fill in-target'], B: ['fill in-target', 'strike on-name'] },
		levels: { A: 'dark', B: 'dark' }
	},
	'two-filled-name-struck': {
		meaning: 'A and B filled, a line through B’s name',
		needs: ['A', 'B'],
		draw: (pen, at) => [
			...pen.place('fill', at('A')),
			...pen.place('fill', at('B')),
			...pen.place('strike-name', at('B'))
		],
		sees: { A: ['fill in-target'], B: ['fill in-target', 'strike on-name'] },
		levels: { A: 'dark', B: 'dark' }
	},
	'other-struck-empty': {
		meaning: 'A filled, a line through B’s empty target and its name',
		needs: ['A', 'B'],
		draw: (pen, at) => [...pen.place('fill', at('A')), ...pen.place('cross-out', at('B'))],
		sees: { A: ['fill in-target'], B: ['strike on-name'] }
	},
	'cross-other-struck': {
		meaning: 'X marks throughout; here an X in A, a line through B’s empty target and its name',
		needs: ['A', 'B'],
		elsewhere: 'cross',
		draw: (pen, at) => [...pen.place('cross', at('A')), ...pen.place('cross-out', at('B'))],
		sees: { A: ['cross in-target'], B: ['strike on-name'] }
	},
	'two-filled-one-erased': {
		meaning: 'A and B filled in pencil, B rubbed out, with some of it left',
		needs: ['A', 'B'],
		draw: (pen, at) => [
			...pen.place('fill', at('A'), 'pencil'),
			...pen.place('fill', at('B'), 'pencil'),
			...pen.place('erase', at('B'))
		],
		sees: { A: ['fill in-target'], B: ['erasure in-target'] },
		levels: { A: 'dark' }
	},
	'yes-erased': {
		meaning: 'a measure with yes filled in pencil and rubbed at one end, most of it still dark',
		contest: 'measure',
		needs: ['YES', 'NO'],
		draw: (pen, at) => [...pen.place('fill', at('YES'), 'pencil'), ...pen.rub(at('YES'), 0.9)],
		sees: { YES: ['fill in-target', 'smudge in-target'] },
		levels: { YES: 'dark', NO: 'empty' }
	}
};
