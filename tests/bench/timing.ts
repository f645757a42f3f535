import { performance } from 'node:perf_hooks';

/** Milliseconds of each of `rounds` runs of `work`, after five that warm up. */
export function time(rounds: number, work: () => unknown): readonly number[] {
	for (let round = 0; round < 5; round += 1) work();
	return Array.from({ length: rounds }, () => {
		const began = performance.now();
		work();
		return performance.now() - began;
	});
}

/** The value below which `share` of the numbers lie. Throws a RangeError when there are none. */
export function quantile(numbers: readonly number[], share: number): number {
	const sorted = [...numbers].sort((a, b) => a - b);
	const value = sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
	if (value === undefined) throw new RangeError('quantile: expected at least one number, got none');
	return value;
}
