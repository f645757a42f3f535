import { describe, expect, test } from 'vitest';
import { changeEvent, clearEvent, keepTimes, readEvent, readTimes } from '$lib/event/eventStore';
import { withSheet, type EventTally } from '$lib/event/eventTally';
import { USUAL_TIMES } from '$lib/event/idle';

const storeOf = (entries: Map<string, string>) => () => ({
	getItem: (key: string) => entries.get(key) ?? null,
	setItem: (key: string, value: string) => void entries.set(key, value),
	removeItem: (key: string) => void entries.delete(key)
});
const barred = (): never => {
	throw new Error('SecurityError');
};
const add = (tally: EventTally | undefined): EventTally => withSheet(tally, 'before', ['torn'], '2027-08-21');

describe('the tally of an event on a device', () => {
	test('is sums only, is read back, and is gone when cleared', () => {
		const entries = new Map<string, string>();
		expect(readEvent(storeOf(entries))).toEqual({ tally: undefined });
		changeEvent(storeOf(entries), add);
		changeEvent(storeOf(entries), add);
		expect([...entries]).toEqual([
			[
				'fairhand.event',
				'{"format":"fairhand-event/1","since":"2027-08-21","sheets":{"before":2},"before":{"torn":2},"after":{}}'
			]
		]);
		clearEvent(storeOf(entries));
		expect(entries.size).toBe(0);
	});

	test('is never replaced where it cannot be read', () => {
		const entries = new Map([['fairhand.event', '{"format":"fairhand-event/2"}']]);
		expect(changeEvent(storeOf(entries), add)).toEqual({ failure: 'unreadable' });
		expect(entries.get('fairhand.event')).toBe('{"format":"fairhand-event/2"}');
	});

	test('says where a browser keeps nothing', () => {
		expect(readEvent(barred)).toEqual({ failure: 'barred' });
		expect(changeEvent(barred, add)).toEqual({ failure: 'barred' });
		expect(clearEvent(barred)).toEqual({ failure: 'barred' });
	});
});

describe('how long the screen waits', () => {
	test('is kept, and is as usual where what lies there is none of the choices', () => {
		const entries = new Map<string, string>();
		expect(readTimes(storeOf(entries))).toEqual(USUAL_TIMES);
		keepTimes(storeOf(entries), { quietS: 300, warningS: 40 });
		expect(readTimes(storeOf(entries))).toEqual({ quietS: 300, warningS: 40 });
		for (const text of ['{', 'null', '{"quietS":1,"warningS":20}', '{"quietS":60,"warningS":0}']) {
			entries.set('fairhand.event.times', text);
			expect(readTimes(storeOf(entries))).toEqual(USUAL_TIMES);
		}
		expect(readTimes(barred)).toEqual(USUAL_TIMES);
		expect(() => {
			keepTimes(barred, USUAL_TIMES);
		}).not.toThrow();
	});
});
