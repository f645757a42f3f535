import { expect, it } from 'vitest';
import type { RulebookVerdict } from '../../../src/core/rules/compareRulebooks';
import { firstShown } from '../../../src/lib/rulebooks/firstShown';

/** Verdicts as `id: what it comes to`. */
const verdicts = (of: Readonly<Record<string, string>>): readonly RulebookVerdict[] =>
	Object.entries(of).map(([id, key]) => ({ rulebook: { id }, key }) as unknown as RulebookVerdict);

it('the rulebook in use comes first, then the first of each other answer, the commonest first', () => {
	const all = verdicts({ a: 'none', b: 'vote', mine: 'none', c: 'refer', d: 'refer' });
	expect(firstShown(all, 'mine')).toEqual(['mine', 'c', 'b']);
});

it('where all come to the same, the one in use stands alone', () => {
	expect(firstShown(verdicts({ a: 'vote', mine: 'vote' }), 'mine')).toEqual(['mine']);
});

it('shows at most three, and the one in use before anything is decided', () => {
	expect(firstShown(verdicts({ mine: '1', a: '2', b: '3', c: '4' }), 'mine')).toEqual(['mine', 'a', 'b']);
	expect(firstShown([], 'mine')).toEqual(['mine']);
});
