import { describe, expect, test } from 'vitest';
import { codesOfReading } from '$core/answers/codesOfReading';
import { MISTAKE_CODES } from '$core/answers/mistakeCodes';
import type { Advice } from '$core/reading/statement';

const advice = (...keys: string[]): { advice: Advice[] } => ({
	advice: keys.map((key) => ({ key, values: {}, choice: 'somebody', tone: 'look' }))
});

describe('the mistake codes of a reading', () => {
	test('say in how many contests each was found, in the order of the one list', () => {
		const codes = codesOfReading([advice('overvote', 'overvote', 'light'), advice('overvote'), advice('nothing')]);
		expect(codes).toEqual([
			{ code: 'faint-mark', count: 1 },
			{ code: 'too-many', count: 2 }
		]);
		const order = MISTAKE_CODES.map(({ id }) => id);
		expect(order.indexOf('faint-mark')).toBeLessThan(order.indexOf('too-many'));
	});

	test('know keys that name the office’s method, and pass over what is no mistake or no situation', () => {
		expect(codesOfReading([advice('crossOut.replacementOnly', 'wrongSide.left')]).map(({ code }) => code)).toEqual([
			'wrong-side',
			'crossed-out'
		]);
		expect(codesOfReading([advice('mailed', 'correct', 'blank', 'undervote', 'nothing')])).toEqual([]);
	});

	test('count two situations of one code in one contest once', () => {
		expect(codesOfReading([advice('overvote', 'lightTooMany')])).toEqual([{ code: 'too-many', count: 1 }]);
	});

	test('hold nothing of a contest or a choice', () => {
		expect(JSON.stringify(codesOfReading([advice('overvote')]))).not.toContain('somebody');
	});
});
