import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ballotOf } from '$core/election/ballot';
import { county, fair } from '$core/election/demo';
import type { Choice, Election } from '$core/election/election';

const idsOf = (choices: readonly Choice[]): readonly string[] => choices.map(({ id }) => id);
const contestOf = (election: Election, style: string, contest: string) =>
	ballotOf(election, style).contests.find(({ id }) => id === contest)!;

describe('ballotOf', () => {
	test('gives the contests of the style, in its order', () => {
		for (const election of [county, fair])
			for (const style of election.styles)
				expect(ballotOf(election, style.id).contests.map(({ id }) => id)).toEqual(style.contests);
	});

	test('moves the choices up by the style’s places, and leaves the write-in line last', () => {
		const printed = ['fenwright', 'quillonby', 'etxandi', 'kessenwick', 'write-in'];
		expect(idsOf(contestOf(county, 'ferrystead', 'treasurer').choices)).toEqual(printed);
		expect(idsOf(contestOf(county, 'cairnwold', 'treasurer').choices)).toEqual([
			'quillonby',
			'etxandi',
			'kessenwick',
			'fenwright',
			'write-in'
		]);
	});

	test('keeps every choice once, whatever the rotation, and comes round after as many places as there are names', () => {
		fc.assert(
			fc.property(fc.integer({ min: 0, max: 1000 }), (places) => {
				const turned = (by: number): Election => ({
					...county,
					styles: county.styles.map((style) => ({ ...style, rotation: { commissioners: by } }))
				});
				const choices = contestOf(turned(places), 'ferrystead', 'commissioners').choices;
				const all = county.contests.find(({ id }) => id === 'commissioners')!.choices;
				expect([...idsOf(choices)].sort()).toEqual([...idsOf(all)].sort());
				expect(choices.slice(-2).map(({ kind }) => kind)).toEqual(['write-in', 'write-in']);
				expect(contestOf(turned(places + 5), 'ferrystead', 'commissioners').choices).toEqual(choices);
				expect(choices[0]).toEqual(all[places % 5]);
			})
		);
	});

	test('leaves the election as it was', () => {
		const before = JSON.stringify(county);
		ballotOf(county, 'reedmarsh');
		expect(JSON.stringify(county)).toBe(before);
	});

	test('names the styles that exist when asked for another', () => {
		expect(() => ballotOf(county, 'north')).toThrow(/ferrystead, cairnwold, reedmarsh.*"north"/);
	});
});
