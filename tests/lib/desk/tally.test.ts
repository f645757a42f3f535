import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MISTAKE_CODES } from '$core/answers/mistakeCodes';
import { tallyCsv, tallyJson } from '$lib/desk/exportTally';
import {
	CALL_LANGUAGES,
	CODES,
	hourBand,
	HOUR_BANDS,
	parseTally,
	shownCells,
	withCall,
	type Tally
} from '$lib/desk/tally';
import { changeTally, clearTally, readTally } from '$lib/desk/tallyStore';

const ZONE = 'America/Chicago';
const MORNING = Date.parse('2027-09-07T14:30:00Z');
const LABEL = { election: 'demo-county', until: '2027-09-10' };

function tallyOf(...calls: readonly [code: string, language: 'en' | 'es' | 'other', times: number][]): Tally {
	let tally: Tally | undefined;
	for (const [code, language, times] of calls)
		for (let i = 0; i < times; i += 1) tally = withCall(tally, { code, language }, MORNING, ZONE);
	return tally!;
}

describe('a tally of calls', () => {
	test('adds each call to its code, its language and its hours by the office’s clock', () => {
		expect(tallyOf(['torn', 'es', 1], ['torn', 'en', 1], ['plain-question', 'en', 1])).toEqual({
			format: 'fairhand-calls/1',
			since: '2027-09-07',
			codes: { torn: 2, 'plain-question': 1 },
			languages: { es: 1, en: 2 },
			hours: { '09-12': 3 }
		});
	});

	test('knows every mistake code, and one word for a plain question', () => {
		expect(CODES.slice(0, -1)).toEqual(MISTAKE_CODES.map(({ id }) => id));
		expect(() => withCall(undefined, { code: 'Mrs. Someone', language: 'en' }, MORNING, ZONE)).toThrow(
			'expected a mistake code'
		);
	});

	test('puts an hour into its band, around midnight and daylight saving', () => {
		expect(HOUR_BANDS).toHaveLength(8);
		expect(hourBand(Date.parse('2027-09-07T05:00:00Z'), ZONE)).toBe('00-03');
		expect(hourBand(Date.parse('2027-09-07T04:59:59Z'), ZONE)).toBe('21-24');
		expect(hourBand(Date.parse('2027-11-07T07:30:00Z'), ZONE)).toBe('00-03');
	});
});

describe('what is given out', () => {
	test('holds cells under 10 back', () => {
		const cells = shownCells({ torn: 9, stained: 10, pencil: 25 }, CODES);
		expect(cells.find(({ cell }) => cell === 'torn')?.calls).toBeUndefined();
		expect(cells.find(({ cell }) => cell === 'pencil')?.calls).toBe(25);
	});

	test('holds the next smallest back as well where the sum would give a small cell away', () => {
		const cells = shownCells({ en: 40, es: 3, other: 12 }, CALL_LANGUAGES);
		expect(cells).toEqual([
			{ cell: 'en', calls: 40 },
			{ cell: 'es', calls: undefined },
			{ cell: 'other', calls: undefined }
		]);
		expect(shownCells({ en: 40, es: 12 }, CALL_LANGUAGES).map(({ calls }) => calls)).toEqual([40, 12]);
	});

	test('never shows a cell under 10, and never lets fewer than 10 be worked out from the sum', () => {
		fc.assert(
			fc.property(fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 8 }), (calls) => {
				const cells = Object.fromEntries(calls.map((n, i) => [HOUR_BANDS[i]!, n]));
				const shown = shownCells(cells, HOUR_BANDS);
				const sum = calls.reduce((a, b) => a + b, 0);
				const seen = shown.reduce((a, cell) => a + (cell.calls ?? 0), 0);
				for (const cell of shown) expect(cell.calls ?? 10).toBeGreaterThanOrEqual(10);
				const held = shown.filter((cell) => cell.calls === undefined).length;
				// Nothing held back; or 10 or more are; or there are not even 10 calls in all.
				expect(held === 0 || sum - seen >= 10 || seen === 0).toBe(true);
				expect(held === 1 && sum - seen >= 10 && shown.length > 1).toBe(false);
			}),
			{ seed: 20270914, numRuns: 500 }
		);
	});

	test('is the same as CSV and as JSON', () => {
		const tally = tallyOf(['torn', 'es', 9], ['stained', 'en', 14], ['wrong-choice', 'en', 31]);
		expect(tallyCsv(tally, LABEL).split('\r\n')).toEqual([
			'election,since,until,table,cell,label,calls',
			'demo-county,2027-09-07,2027-09-10,code,wrong-choice,Wrong choice marked,31',
			'demo-county,2027-09-07,2027-09-10,code,stained,Stained or wet,suppressed',
			'demo-county,2027-09-07,2027-09-10,code,torn,Torn,suppressed',
			'demo-county,2027-09-07,2027-09-10,language,en,,suppressed',
			'demo-county,2027-09-07,2027-09-10,language,es,,suppressed',
			'demo-county,2027-09-07,2027-09-10,hours,09-12,,54',
			''
		]);
		expect(JSON.parse(tallyJson(tally, LABEL))).toMatchObject({
			election: 'demo-county',
			suppressedUnder: 10,
			codes: [
				{ code: 'wrong-choice', calls: 31 },
				{ code: 'stained', calls: 'suppressed' },
				{ code: 'torn', calls: 'suppressed' }
			],
			hours: [{ hours: '09-12', calls: 54 }]
		});
	});

	test('holds no number under 10 anywhere in it', () => {
		const tally = tallyOf(['torn', 'es', 7], ['pencil', 'other', 9], ['stained', 'en', 12]);
		for (const text of [tallyCsv(tally, LABEL), tallyJson(tally, LABEL)])
			expect(text).not.toMatch(/(,|": )[1-9]\b(?!\d)/);
	});

	test('quotes what a spreadsheet would part or run', () => {
		const csv = tallyCsv(tallyOf(['torn', 'es', 12]), { election: '=SUM(1,2)', until: 'a "day"' });
		expect(csv).toContain(`"'=SUM(1,2)"`);
		expect(csv).toContain('"a ""day"""');
	});
});

describe('the tally on a device', () => {
	const storeOf = (entries: Map<string, string>) => () => ({
		getItem: (key: string) => entries.get(key) ?? null,
		setItem: (key: string, value: string) => void entries.set(key, value),
		removeItem: (key: string) => void entries.delete(key)
	});
	const barred = (): never => {
		throw new Error('SecurityError');
	};
	const add = (tally: Tally | undefined): Tally => withCall(tally, { code: 'torn', language: 'en' }, MORNING, ZONE);

	test('is read back as it was kept, and is gone when cleared', () => {
		const entries = new Map<string, string>();
		expect(readTally(storeOf(entries))).toEqual({ tally: undefined });
		changeTally(storeOf(entries), add);
		expect(changeTally(storeOf(entries), add)).toMatchObject({ tally: { codes: { torn: 2 } } });
		expect(readTally(storeOf(entries))).toMatchObject({ tally: { languages: { en: 2 } } });
		clearTally(storeOf(entries));
		expect(entries.size).toBe(0);
	});

	test('keeps sums only', () => {
		const entries = new Map<string, string>();
		changeTally(storeOf(entries), add);
		expect([...entries.values()]).toEqual([
			'{"format":"fairhand-calls/1","since":"2027-09-07","codes":{"torn":1},"languages":{"en":1},"hours":{"09-12":1}}'
		]);
	});

	test('is never replaced where it cannot be read, and says so', () => {
		for (const text of ['', '{', '[]', 'null', '{"format":"fairhand-calls/1"}', '{"format":"fairhand-calls/2"}']) {
			const entries = new Map([['fairhand.calls', text]]);
			expect(changeTally(storeOf(entries), add)).toEqual({ failure: 'unreadable' });
			expect(entries.get('fairhand.calls')).toBe(text);
		}
		expect(parseTally(JSON.stringify({ ...tallyOf(['torn', 'en', 1]), codes: { gossip: 3 } }))).toBeUndefined();
		expect(parseTally(JSON.stringify({ ...tallyOf(['torn', 'en', 1]), codes: { torn: 0.5 } }))).toBeUndefined();
	});

	test('says where a browser keeps nothing', () => {
		expect(readTally(barred)).toEqual({ failure: 'barred' });
		expect(changeTally(barred, add)).toEqual({ failure: 'barred' });
		expect(clearTally(barred)).toEqual({ failure: 'barred' });
	});
});
