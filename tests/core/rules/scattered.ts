import fc from 'fast-check';
import { MARK_KINDS, MARK_PLACES } from '$core/marks/mark';
import { SAYINGS } from '$core/rules/vocabulary';
import type { BallotSpec, ContestSpec, MarkSpec } from './picture';

/** Any mark that a reader might report, plausible or not. */
export const anyMark: fc.Arbitrary<MarkSpec> = fc
	.record({
		kind: fc.constantFrom(...MARK_KINDS),
		place: fc.constantFrom(...MARK_PLACES),
		confidence: fc.constantFrom(0.2, 0.9),
		says: fc.option(fc.constantFrom(...SAYINGS), { nil: undefined }),
		names: fc.constantFrom(undefined, 'A', 'B'),
		touching: fc.boolean(),
		rank: fc.integer({ min: 1, max: 3 })
	})
	.map(({ touching, says, names, ...mark }) => ({
		...mark,
		...(says === undefined ? {} : { says }),
		...(names === undefined ? {} : { names }),
		...(touching ? { alsoTouches: ['B'] } : {})
	}));

const atChoice = fc
	.record({
		marks: fc.array(anyMark, { maxLength: 2 }),
		level: fc.constantFrom('dark' as const, 'unsure' as const, 'empty' as const),
		fill: fc.double({ min: 0, max: 1, noNaN: true })
	})
	.map((spec) => (spec.marks.length === 0 ? { ...spec, level: 'empty' as const, fill: 0 } : spec));

export const anyContest: fc.Arbitrary<ContestSpec> = fc.record({
	kind: fc.constantFrom('candidates' as const, 'candidates' as const, 'measure' as const, 'ranked' as const),
	ranks: fc.constant(3),
	voteFor: fc.integer({ min: 1, max: 2 }),
	choices: fc.record({ A: atChoice, B: atChoice, C: atChoice, W: atChoice }),
	heading: fc.array(anyMark, { maxLength: 1 })
});

/** Up to three contests with marks scattered over them, some of a party, one page perhaps not seen. */
export const anyBallot: fc.Arbitrary<BallotSpec> = fc
	.record({
		contests: fc.array(fc.tuple(anyContest, fc.constantFrom(undefined, 'lantern', 'orchard')), {
			minLength: 1,
			maxLength: 3
		}),
		margin: fc.array(anyMark, { maxLength: 1 }),
		partial: fc.boolean(),
		damaged: fc.boolean()
	})
	.map(({ contests, margin, partial, damaged }) => ({
		contests: contests.map(([contest, party], i) => ({
			...contest,
			id: `contest-${i + 1}`,
			...(party === undefined ? {} : { party })
		})),
		margin,
		pages: 2,
		seen: partial ? [1] : [1, 2],
		told: { damaged }
	}));
