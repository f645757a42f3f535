import { describe, expect, it } from 'vitest';
import {
	clauseElementId,
	comparisonPlaceIn,
	hashOfComparison,
	hashOfRulebook,
	rulebookPlaceIn
} from '$lib/rulebooks/address';

describe('the address of a rulebook', () => {
	it('names the rulebook, or one clause of it', () => {
		expect(hashOfRulebook({ rulebook: 'us-tx' })).toBe('#us-tx');
		expect(hashOfRulebook({ rulebook: 'us-tx', clause: 'TX-c' })).toBe('#us-tx/TX-c');
	});

	it('is the id of the clause on the page, so that it works before any script runs', () => {
		expect(`#${clauseElementId('us-tx', 'TX-c')}`).toBe(hashOfRulebook({ rulebook: 'us-tx', clause: 'TX-c' }));
	});

	it('is read back as it was written, whatever letters the ids have', () => {
		for (const place of [{ rulebook: 'us-tx' }, { rulebook: 'a b', clause: 'c/d+é%' }])
			expect(rulebookPlaceIn(hashOfRulebook(place))).toEqual(place);
	});

	it('names nothing where it is empty, and is taken as it stands where it was cut short', () => {
		expect(rulebookPlaceIn('')).toBeUndefined();
		expect(rulebookPlaceIn('#')).toBeUndefined();
		expect(rulebookPlaceIn('#us-tx/')).toEqual({ rulebook: 'us-tx' });
		expect(rulebookPlaceIn('#us-tx/caf%C3')).toEqual({ rulebook: 'us-tx', clause: 'caf%C3' });
	});
});

describe('the address of a comparison', () => {
	it('names the picture and the rulebooks in the order they were picked', () => {
		expect(hashOfComparison({ picture: 'dot', rulebooks: ['us-tx', 'us-ak'] })).toBe('#dot/us-tx+us-ak');
	});

	it('is read back as it was written, with rulebooks and with none', () => {
		for (const rulebooks of [[], ['us-tx'], ['us-tx', 'demo-county', 'gb']])
			expect(comparisonPlaceIn(hashOfComparison({ picture: 'one-struck', rulebooks }))).toEqual({
				picture: 'one-struck',
				rulebooks
			});
	});

	it('tells nobody has picked rulebooks from somebody has picked none', () => {
		expect(comparisonPlaceIn('#dot')).toEqual({ picture: 'dot' });
		expect(comparisonPlaceIn('#dot/')).toEqual({ picture: 'dot', rulebooks: [] });
		expect(hashOfComparison({ picture: 'dot' })).toBe('#dot');
		expect(comparisonPlaceIn('')).toBeUndefined();
	});
});
