import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { everyMinute } from '../../../src/lib/state/everyMinute';

const START_UTC_MS = Date.UTC(2027, 7, 30, 15);

beforeEach(() => {
	vi.useFakeTimers({ now: START_UTC_MS });
});
afterEach(() => {
	vi.useRealTimers();
});

it('tells the time at once and once a minute, until it is stopped', () => {
	const told: number[] = [];
	const stop = everyMinute((nowUtcMs) => told.push(nowUtcMs - START_UTC_MS));
	expect(told).toEqual([0]);
	vi.advanceTimersByTime(125_000);
	expect(told).toEqual([0, 60_000, 120_000]);
	stop();
	vi.advanceTimersByTime(300_000);
	expect(told).toEqual([0, 60_000, 120_000]);
});
