import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { OTHER_DECISIONS, type Decision } from '$core/training/decision';
import { parseRecord, RECORD_FORMAT, recordJson, stackOf, type ReviewRecord } from '$core/training/reviewRecord';
import { cases, election } from './table';

const choicesAt = (contest: string) => election.contests.find(({ id }) => id === contest)!.choices.map(({ id }) => id);
const frame = {
	stack: stackOf(cases),
	choicesOf: new Map(cases.map(({ id, contest }) => [id, choicesAt(contest)])),
	rulebooks: ['demo-county', 'us-ak']
};

const record: fc.Arbitrary<ReviewRecord> = fc
	.shuffledSubarray([...cases], { minLength: 1, maxLength: 100 })
	.chain((dealt) =>
		fc
			.tuple(
				...dealt.map(({ id, contest }) =>
					fc
						.oneof(
							fc.constantFrom(...OTHER_DECISIONS).map((outcome): Decision => ({ outcome })),
							fc.subarray(choicesAt(contest), { minLength: 1 }).map((votes): Decision => ({ outcome: 'vote', votes }))
						)
						.map((decision) => ({ case: id, decision }))
				)
			)
			.map((decisions) => ({
				format: RECORD_FORMAT,
				stack: frame.stack,
				person: 'A' as const,
				rulebook: 'us-ak',
				decisions
			}))
	);

describe('the file of one person’s decisions', () => {
	test('comes back as it was saved', () => {
		fc.assert(
			fc.property(record, (one) => {
				expect(parseRecord(recordJson(one), frame)).toEqual(one);
			}),
			{ numRuns: 30 }
		);
	});

	test('holds cases, decisions and a rulebook, and no other field', () => {
		const one = fc.sample(record, { numRuns: 1, seed: 5 })[0]!;
		const saved = JSON.parse(recordJson(one)) as Record<string, unknown>;
		expect(Object.keys(saved).sort()).toEqual(['decisions', 'format', 'person', 'rulebook', 'stack']);
		const more = JSON.stringify({ ...saved, name: 'somebody', time: 1 });
		expect(parseRecord(more, frame)).toEqual(one);
	});

	const [first] = cases;
	const good = {
		format: RECORD_FORMAT,
		stack: frame.stack,
		person: 'A',
		rulebook: 'demo-county',
		decisions: [{ case: first!.id, decision: { outcome: 'blank' } }]
	};
	test.each<[string, string]>([
		['not-json', '{'],
		['format', 'null'],
		['format', '[]'],
		['format', JSON.stringify({ ...good, format: 'fairhand-calls/1' })],
		['stack', JSON.stringify({ ...good, stack: '00000000' })],
		['rulebook', JSON.stringify({ ...good, rulebook: 'nowhere' })],
		['decisions', JSON.stringify({ ...good, decisions: [] })],
		['case', JSON.stringify({ ...good, decisions: [{ case: 'constructor', decision: { outcome: 'blank' } }] })],
		['case', JSON.stringify({ ...good, decisions: [good.decisions[0], good.decisions[0]] })],
		['decision', JSON.stringify({ ...good, decisions: [{ case: first!.id, decision: { outcome: 'valid' } }] })],
		[
			'decision',
			JSON.stringify({ ...good, decisions: [{ case: first!.id, decision: { outcome: 'vote', votes: ['x'] } }] })
		],
		[
			'decision',
			JSON.stringify({ ...good, decisions: [{ case: first!.id, decision: { outcome: 'vote', votes: [] } }] })
		]
	])('with a fault (%s) is refused, and says what came', (fault, text) => {
		expect(parseRecord(text, frame)).toMatchObject({ fault, received: expect.any(String) as string });
	});

	test('never throws, whatever the file holds', () => {
		fc.assert(
			fc.property(fc.json(), (text) => {
				expect(parseRecord(text, frame)).toHaveProperty('fault');
			})
		);
	});
});

describe('the name of a list of cases', () => {
	test('is the same in any order, and another with any other case', () => {
		expect(stackOf([...cases].reverse())).toBe(stackOf(cases));
		expect(stackOf(cases.slice(1))).not.toBe(stackOf(cases));
		const [one, ...rest] = cases;
		expect(stackOf([{ ...one!, contest: 'another' }, ...rest])).not.toBe(stackOf(cases));
	});
});
