import { readdirSync, readFileSync } from 'node:fs';
import type { Rulebook } from '$core/rules/rule';

const FOLDER = new URL('../../../src/core/rules/sets/', import.meta.url);

/** Every rulebook of the folder, by its file's name without the ending. */
export const SETS: readonly (readonly [string, Rulebook])[] = readdirSync(FOLDER)
	.filter((name) => name.endsWith('.json'))
	.sort()
	.map((name) => [name.slice(0, -'.json'.length), JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8')) as Rulebook]);
