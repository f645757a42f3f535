import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addDays, dayMs } from '$core/election/calendar';
import { dateOf, endOf, hasPassed, nextEnd, officeDay } from '$core/election/dates';
import { county } from '$core/election/demo';
import type { Election, ElectionDate } from '$core/election/election';

/** The demo election on another day, with one date of the given offset and hour, in a zone. */
function electionOn(date: string, offsetDays: number, time?: string, timeZone = 'America/Chicago'): Election {
	const base: ElectionDate = { id: 'return', label: { en: 'x', es: 'x' }, offsetDays, cite: 'Demo rule, invented' };
	return {
		...county,
		date,
		office: { ...county.office, timeZone },
		dates: [time === undefined ? base : { ...base, time }]
	};
}

const utc = (instant: string): number => Date.parse(instant);

// The rule of the Gregorian calendar, step by step: an opinion that does not rest on Date.
function nextDay(date: string): string {
	const [year, month, day] = date.split('-').map(Number) as [number, number, number];
	const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
	const lengths = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
	const two = (n: number): string => String(n).padStart(2, '0');
	if (day < lengths[month - 1]!) return `${year}-${two(month)}-${two(day + 1)}`;
	return month < 12 ? `${year}-${two(month + 1)}-01` : `${year + 1}-01-01`;
}

describe('dateOf', () => {
	test('adds the offset to election day', () => {
		expect(dateOf(county, 'mailing')).toEqual({ date: '2027-08-23' });
		expect(dateOf(county, 'return')).toEqual({ date: '2027-09-14', time: '20:00' });
		expect(dateOf(county, 'cure')).toEqual({ date: '2027-09-28', time: '16:30' });
	});

	test('crosses leap days and year ends', () => {
		expect(dateOf(electionOn('2028-03-01', -1), 'return')?.date).toBe('2028-02-29');
		expect(dateOf(electionOn('2027-03-01', -1), 'return')?.date).toBe('2027-02-28');
		expect(dateOf(electionOn('2100-03-01', -1), 'return')?.date).toBe('2100-02-28');
		expect(dateOf(electionOn('2028-01-10', -22), 'return')?.date).toBe('2027-12-19');
		expect(dateOf(electionOn('2027-12-28', 10), 'return')?.date).toBe('2028-01-07');
	});

	test('agrees with the calendar’s own rule, day by day', () => {
		let date = '1999-12-30';
		for (let n = 1; n <= 1000; n++) {
			date = nextDay(date);
			expect(addDays('1999-12-30', n)).toBe(date);
		}
		fc.assert(
			fc.property(fc.integer({ min: -300_000, max: 300_000 }), (n) => {
				const day = addDays('2000-01-01', n);
				expect(addDays(day, 1)).toBe(nextDay(day));
				expect(addDays(day, -n)).toBe('2000-01-01');
			})
		);
	});

	test('knows no day that the calendar does not have', () => {
		for (const day of ['2027-02-29', '2027-04-31', '2027-13-01', '2027-00-10', '2027-1-1', '0027-01-01', 'tomorrow'])
			expect(dayMs(day), day).toBeUndefined();
		expect(dayMs('2028-02-29')).toBe(utc('2028-02-29T00:00:00Z'));
		expect(() => addDays('2027-02-29', 1)).toThrow(/real day.*2027-02-29/);
	});

	test('is undefined for a date that the file does not give', () => {
		expect(dateOf(electionOn('2027-09-14', 0), 'cure')).toBeUndefined();
		expect(hasPassed(electionOn('2027-09-14', 0), 'cure', 0)).toBeUndefined();
	});
});

// Daylight saving in the United States: from the second Sunday of March to the first of November, at 2 o'clock
// (15 U.S.C. 260a). In 2027 these are 14 March and 7 November. Central time is UTC-6, in summer UTC-5.
describe('hasPassed', () => {
	test('turns at the hour of the office’s clock', () => {
		expect(hasPassed(county, 'return', utc('2027-09-15T00:59:59.999Z'))).toBe(false);
		expect(hasPassed(county, 'return', utc('2027-09-15T01:00:00Z'))).toBe(true);
	});

	test('keeps a day without an hour open until its midnight at the office', () => {
		const election = electionOn('2027-09-14', 0);
		expect(hasPassed(election, 'return', utc('2027-09-15T04:59:59Z'))).toBe(false);
		expect(hasPassed(election, 'return', utc('2027-09-15T05:00:00Z'))).toBe(true);
	});

	test('lasts 25 hours on the day that clocks go back and 23 on the day that they go forward', () => {
		const hours = (date: string): number =>
			(endOf(electionOn(date, 0), 'return')! - endOf(electionOn(date, -1), 'return')!) / 3_600_000;
		expect(hours('2027-11-07')).toBe(25);
		expect(hours('2027-03-14')).toBe(23);
		expect(hours('2027-09-14')).toBe(24);
	});

	test('takes the first of an hour shown twice, and does not open again', () => {
		const election = electionOn('2027-11-07', 0, '01:30');
		expect(endOf(election, 'return')).toBe(utc('2027-11-07T06:30:00Z'));
		expect(hasPassed(election, 'return', utc('2027-11-07T07:15:00Z'))).toBe(true);
	});

	test('takes an hour never shown as if the clock had not moved', () => {
		expect(endOf(electionOn('2027-03-14', 0, '02:30'), 'return')).toBe(utc('2027-03-14T08:30:00Z'));
	});

	test('is right in zones of half hours and at the ends of the day’s line', () => {
		// Offsets of the IANA time zone database: India +5:30, Line Islands +14, Marquesas -9:30.
		expect(endOf(electionOn('2027-09-14', 0, '20:00', 'Asia/Kolkata'), 'return')).toBe(utc('2027-09-14T14:30:00Z'));
		expect(endOf(electionOn('2027-09-14', 0, undefined, 'Pacific/Kiritimati'), 'return')).toBe(
			utc('2027-09-14T10:00:00Z')
		);
		expect(endOf(electionOn('2027-09-14', 0, '12:00', 'Pacific/Marquesas'), 'return')).toBe(
			utc('2027-09-14T21:30:00Z')
		);
	});

	test('never turns back as time goes on', () => {
		const election = electionOn('2027-11-07', 0, '01:30');
		fc.assert(
			fc.property(fc.integer({ min: -86_400, max: 86_400 }), fc.nat({ max: 86_400 }), (start, later) => {
				const from = utc('2027-11-07T06:30:00Z') + start * 1000;
				if (hasPassed(election, 'return', from) === true)
					expect(hasPassed(election, 'return', from + later * 1000)).toBe(true);
				else expect(from).toBeLessThan(utc('2027-11-07T06:30:00Z'));
			})
		);
	});

	test('gives the office’s day, not the voter’s', () => {
		expect(officeDay('America/Chicago', utc('2027-09-15T04:59:59.500Z'))).toBe('2027-09-14');
		expect(officeDay('America/Chicago', utc('2027-09-15T05:00:00Z'))).toBe('2027-09-15');
		expect(officeDay('Pacific/Kiritimati', utc('2027-09-14T10:00:00Z'))).toBe('2027-09-15');
	});
});

describe('nextEnd', () => {
	test('leads through the dates that end, one after the other, until none is left', () => {
		const ends: number[] = [];
		let end = nextEnd(county, 0);
		while (end !== undefined && ends.length < 20) {
			ends.push(end);
			end = nextEnd(county, end);
		}
		expect(ends).toEqual([...new Set(county.dates.map(({ id }) => endOf(county, id)!))].sort((a, b) => a - b));
	});
});
