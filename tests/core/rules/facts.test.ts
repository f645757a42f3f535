import { describe, expect, test } from 'vitest';
import { ballotOf } from '$core/election/ballot';
import { county } from '$core/election/demo';
import type { Election } from '$core/election/election';
import { layOut } from '$core/layout/layOutBallot';
import type { Mark, PageMarks, TargetReading } from '$core/marks/mark';
import { readMachine } from '$core/reading/readMachine';
import { gatherFacts, type ContestFacts } from '$core/rules/facts';
import { INKED_BIT } from '$core/rules/needs';
import en from '$locales/en.json';

const style = county.styles[0]!.id;
const [first] = ballotOf(county, style).contests;
const [a, b] = first!.choices.map(({ id }) => id);

/** Facts of the first contest of a sheet that is blank but for what is changed. */
function factsOf(
	change: Partial<TargetReading> = {},
	marks: readonly Partial<Mark>[] = [],
	election: Election = county
): ContestFacts {
	const layout = layOut(election, style, { en: en.layout }, ['en']);
	const pages = layout.pages.map(({ page, choices }): PageMarks => ({
		page,
		targets: choices.map(({ contest, choice, rank }) => ({
			contest,
			choice,
			...(rank === undefined ? {} : { rank }),
			page,
			fill: 0,
			darkness: 0,
			score: 0,
			level: 'empty',
			...(contest === first!.id && choice === a ? change : {})
		})),
		marks: marks.map((mark, i) => ({
			id: `m${i + 1}`,
			page,
			kind: 'strike',
			place: 'on-name',
			contest: first!.id,
			box: { x: 0, y: 0, width: 1, height: 1 },
			confidence: 0.9,
			darkness: 0.8,
			...mark
		}))
	}));
	const { contests } = ballotOf(election, style);
	const machine = new Map(contests.map((contest) => [contest.id, readMachine(contest, pages)]));
	return gatherFacts(election, layout, pages.slice(0, 1), machine).contests[0]!;
}

const choiceOf = ({ choices }: ContestFacts, id: string | undefined) => choices.find((one) => one.id === id)!;

describe('gatherFacts', () => {
	test('finds nothing at any choice of a blank contest', () => {
		const facts = factsOf();
		expect(facts.inked).toBe(false);
		for (const { marks, strikes, level, fill, kindBits, placeBits, possible } of facts.choices)
			expect({ marks, strikes, level, fill, kindBits, placeBits, possible }).toEqual({
				marks: [],
				strikes: [],
				level: 'empty',
				fill: 0,
				kindBits: 0,
				placeBits: 0,
				possible: false
			});
	});

	test('keeps ink in a target at which no mark was found, however little', () => {
		const facts = choiceOf(factsOf({ fill: 0.02 }), a);
		expect(facts.fill).toBe(0.02);
		expect(facts.kindBits).toBe(INKED_BIT);
	});

	test('keeps the level of a target that has no ink: an election may call it unsure from nothing on', () => {
		expect(choiceOf(factsOf({ level: 'unsure' }), a)).toMatchObject({ level: 'unsure', possible: true });
	});

	test('finds the line through a name that begins at another choice', () => {
		const facts = factsOf({}, [{ choice: a!, alsoTouches: [b!] }]);
		expect(choiceOf(facts, a).marks.map(({ kind }) => kind)).toEqual(['strike']);
		expect(choiceOf(facts, b).marks).toEqual([]);
		expect(choiceOf(facts, b).strikes.map(({ kind }) => kind)).toEqual(['strike']);
	});

	test('says of each cell of a blank ranking which rank it is', () => {
		const ranking = {
			...county,
			contests: county.contests.map((one) =>
				one.id === first!.id ? { ...one, kind: 'ranked' as const, ranks: 3 } : one
			)
		};
		const ranks = factsOf({}, [], ranking)
			.choices.filter(({ id }) => id === a)
			.map(({ rank }) => rank);
		expect(ranks).toEqual([1, 2, 3]);
	});

	test('leaves nothing of one sheet in the facts of the next', () => {
		factsOf({ fill: 0.4, level: 'dark' }, [{ kind: 'fill', place: 'in-target', choice: a! }]);
		expect(choiceOf(factsOf(), a)).toMatchObject({ marks: [], level: 'empty', fill: 0 });
	});
});
