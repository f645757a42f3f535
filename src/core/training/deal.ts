import { randomFrom } from '../random';
import { shuffled } from './makeCases';

/**
 * `count` of a queue, in the queue's order: its beginning, or with a seed any of it. The whole queue where it holds no
 * more.
 */
export function deal<T>(queue: readonly T[], count: number, seed?: number): readonly T[] {
	if (seed === undefined) return queue.slice(0, count);
	const taken = new Set(shuffled(queue, randomFrom(seed)).slice(0, count));
	return queue.filter((one) => taken.has(one));
}
