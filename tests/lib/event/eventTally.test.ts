import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { MistakeCodeId } from '$core/answers/mistakeCodes';
import {
	EVENT_CODES,
	MOMENTS,
	parseEvent,
	shownEvent,
	shownIn,
	shownMistakes,
	withSheet,
	withStarted,
	type EventTally,
	type Moment
} from '$lib/event/eventTally';
import { eventCsv, eventJson } from '$lib/event/exportEvent';

const DAY = '2027-08-21';
const LABEL = { election: 'demo-fair', until: '2027-08-22' };

interface Sheet {
	readonly moment: Moment | 'started';
	readonly codes: readonly MistakeCodeId[];
	readonly day: string;
}

const tallyOf = (sheets: readonly Sheet[]): EventTally | undefined =>
	sheets.reduce<EventTally | undefined>(
		(tally, { moment, codes, day }) =>
			moment === 'started' ? withStarted(tally, day) : withSheet(tally, moment, codes, day),
		undefined
	);

const times = (count: number, moment: Sheet['moment'], ...codes: MistakeCodeId[]): Sheet[] =>
	Array.from({ length: count }, () => ({ moment, codes, day: DAY }));

const aSheet: fc.Arbitrary<Sheet> = fc.record({
	moment: fc.constantFrom<Sheet['moment']>('started', ...MOMENTS),
	codes: fc.array(fc.constantFrom<MistakeCodeId>('too-many', 'torn', 'crossed-out', 'faint-mark'), { maxLength: 5 }),
	day: fc.constantFrom('2027-08-20', DAY, '2027-08-22')
});
const manySheets = fc.array(aSheet, { minLength: 1, maxLength: 60 });
const RUNS = { seed: 20270821, numRuns: 300 };

describe('the tally of an event', () => {
	test('adds each sheet to its moment and to each kind of mistake on it, once', () => {
		expect(
			tallyOf([
				...times(2, 'started'),
				...times(1, 'before', 'too-many', 'too-many', 'pencil'),
				...times(1, 'after', 'pencil')
			])
		).toEqual({
			format: 'fairhand-event/1',
			since: DAY,
			sheets: { started: 2, before: 1, after: 1 },
			before: { 'too-many': 1, pencil: 1 },
			after: { pencil: 1 }
		});
	});

	test('knows the one list of mistakes and nothing else', () => {
		expect(() => withSheet(undefined, 'before', ['best-pie' as MistakeCodeId], DAY)).toThrow(
			'expected a mistake code, got "best-pie"'
		);
	});

	test('is the same in whatever order the sheets come', () => {
		const inAnyOrder = manySheets.chain((sheets) =>
			fc.tuple(fc.constant(sheets), fc.shuffledSubarray(sheets, { minLength: sheets.length }))
		);
		fc.assert(
			fc.property(inAnyOrder, ([sheets, shuffled]) => {
				expect(tallyOf(shuffled)).toEqual(tallyOf(sheets));
			}),
			RUNS
		);
	});

	test('holds as many sheets as came, and each mistake on as many as had it', () => {
		fc.assert(
			fc.property(manySheets, (sheets) => {
				const tally = tallyOf(sheets)!;
				expect(Object.values(tally.sheets).reduce((a, b) => a + b, 0)).toBe(sheets.length);
				for (const moment of MOMENTS)
					for (const code of EVENT_CODES)
						expect(tally[moment][code] ?? 0).toBe(
							sheets.filter((s) => s.moment === moment && s.codes.includes(code as MistakeCodeId)).length
						);
			}),
			RUNS
		);
	});

	test('is read back as it was written, and is no tally when a mistake is on more sheets than there are', () => {
		fc.assert(
			fc.property(manySheets, (sheets) => {
				const tally = tallyOf(sheets);
				expect(parseEvent(JSON.stringify(tally))).toEqual(tally);
			}),
			RUNS
		);
		const tally = tallyOf(times(2, 'before', 'torn'))!;
		for (const broken of [
			{ ...tally, before: { torn: 3 } },
			{ ...tally, after: { torn: 1 } },
			{ ...tally, before: { torn: 0.5 } },
			{ ...tally, before: { 'best-pie': 1 } },
			{ ...tally, sheets: { before: 2, apple: 1 } },
			{ ...tally, since: '2027-08-21T10:15' },
			{ ...tally, format: 'fairhand-calls/1' },
			[],
			null
		])
			expect([broken, parseEvent(JSON.stringify(broken))]).toEqual([broken, undefined]);
		expect(parseEvent('{')).toBeUndefined();
	});
});

describe('what is given out of an event', () => {
	test('shows no number under 10, in no table and in no file', () => {
		fc.assert(
			fc.property(fc.array(aSheet, { minLength: 1, maxLength: 120 }), (sheets) => {
				const tally = tallyOf(sheets)!;
				const shown = shownEvent(tally);
				for (const { count } of [...shown.sheets, ...shown.before, ...shown.after])
					expect(count ?? 10).toBeGreaterThanOrEqual(10);
				for (const text of [eventCsv(tally, LABEL), eventJson(tally, LABEL)])
					expect(text).not.toMatch(/(,|": )[1-9]\s/);
			}),
			RUNS
		);
	});

	test('holds the next smallest back as well where fewer than 10 are held', () => {
		const tally = tallyOf([
			...times(3, 'before', 'torn'),
			...times(12, 'before', 'pencil'),
			...times(40, 'before', 'folded')
		])!;
		const { before } = shownEvent(tally);
		expect(['torn', 'pencil', 'folded'].map((code) => shownIn(before, code))).toEqual([undefined, undefined, 40]);
	});

	test('lays both moments side by side: a number, nothing found, or held back', () => {
		const tally = tallyOf([
			...times(25, 'before', 'too-many'),
			...times(11, 'before', 'pencil'),
			...times(4, 'after', 'too-many'),
			...times(30, 'after')
		])!;
		expect(shownMistakes(shownEvent(tally))).toEqual([
			{ code: 'pencil', before: 11, after: 0 },
			{ code: 'too-many', before: 25, after: undefined }
		]);
	});

	test('is the same as CSV and as JSON', () => {
		const tally = tallyOf([
			...times(31, 'started'),
			...times(28, 'before', 'covered-up'),
			...times(12, 'after'),
			...times(2, 'after', 'covered-up')
		])!;
		expect(eventCsv(tally, LABEL).split('\r\n')).toEqual([
			'election,since,until,table,cell,label,sheets',
			'demo-fair,2027-08-21,2027-08-22,sheets,started,,31',
			'demo-fair,2027-08-21,2027-08-22,sheets,before,,28',
			'demo-fair,2027-08-21,2027-08-22,sheets,after,,14',
			'demo-fair,2027-08-21,2027-08-22,before,covered-up,"Covered with fluid, tape or a label",28',
			'demo-fair,2027-08-21,2027-08-22,after,covered-up,"Covered with fluid, tape or a label",suppressed',
			''
		]);
		expect(JSON.parse(eventJson(tally, LABEL))).toEqual({
			format: 'fairhand-event/1',
			election: 'demo-fair',
			since: '2027-08-21',
			until: '2027-08-22',
			suppressedUnder: 10,
			sheets: [
				{ moment: 'started', sheets: 31 },
				{ moment: 'before', sheets: 28 },
				{ moment: 'after', sheets: 14 }
			],
			before: [{ code: 'covered-up', sheets: 28 }],
			after: [{ code: 'covered-up', sheets: 'suppressed' }]
		});
	});

	test('has labels that need no more than commas to be quoted', () => {
		const all = EVENT_CODES.reduce<EventTally | undefined>(
			(tally, code) => withSheet(tally, 'before', [code as MistakeCodeId], DAY),
			undefined
		)!;
		const lines = eventCsv(all, LABEL).trim().split('\r\n').slice(1);
		expect(lines).toHaveLength(EVENT_CODES.length + 1);
		for (const line of lines)
			expect(line).toMatch(/^(?:[\w-]+,){5}(?:"[^"\r\n]+"|[^",=+@\r\n]*),suppressed$|,before,,\d+$/);
	});
});
