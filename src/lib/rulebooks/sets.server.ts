import { checkRulebook } from '$core/rules/checkRulebook';
import type { Rulebook } from '$core/rules/rule';

const files = import.meta.glob<unknown>('../../core/rules/sets/*.json', { eager: true, import: 'default' });

/**
 * Every rulebook of the folder, by id. Read while pages are prerendered: a new file is there without being named
 * anywhere, and none of them becomes part of the program. Throws for a file with faults, which then stops the build.
 */
export const SETS: readonly Rulebook[] = Object.entries(files)
	.map(([path, document]) => {
		const faults = checkRulebook(document);
		if (faults.length > 0)
			throw new Error(
				`${path}: expected a rulebook without faults, got ${faults.length}: ${faults.map((fault) => `${fault.path}: ${fault.message}`).join('; ')}`
			);
		return document as Rulebook;
	})
	.sort((a, b) => (a.id < b.id ? -1 : 1));

/** A rulebook by its id. Throws a RangeError where there is none. */
export function rulebookOf(id: string): Rulebook {
	const found = SETS.find((book) => book.id === id);
	if (!found)
		throw new RangeError(`rulebookOf: expected one of ${SETS.map((book) => book.id).join(', ')}, got "${id}"`);
	return found;
}
