import { grainAt } from '../random';

/** Smooth noise from 0 to 1 at a place counted in blotches: it changes over one unit. */
export function blotchAt(x: number, y: number, seed: number): number {
	const column = Math.floor(x);
	const row = Math.floor(y);
	const u = ease(x - column);
	const v = ease(y - row);
	const a = grainAt(column, row, seed);
	const b = grainAt(column + 1, row, seed);
	const c = grainAt(column, row + 1, seed);
	const d = grainAt(column + 1, row + 1, seed);
	return (a + (b - a) * u) * (1 - v) + (c + (d - c) * u) * v;
}

const ease = (t: number): number => t * t * (3 - 2 * t);
