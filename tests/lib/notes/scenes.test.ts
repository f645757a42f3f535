import { describe, expect, test } from 'vitest';
import { REMEDIES, SITUATIONS } from '$core/advice/situation';
import { CORRECTION_METHODS } from '$core/election/checkInstructions';
import { scenesFor } from '$lib/notes/scenes';
import en from '../../../locales/en.json' with { type: 'json' };

const looks = SITUATIONS.filter((id) => REMEDIES[id].tone === 'look' && id !== 'crossover');
const captions = Object.keys(en.reading.fixIt).map((key) => key.split('_')[0]);

describe('the walk-through', () => {
	test.each(looks)('of %s begins with that mistake, and every step of it has words', (id) => {
		for (const method of CORRECTION_METHODS)
			for (const stage of ['holding', 'polling-place'] as const) {
				const scenes = scenesFor(id, method, stage);
				expect(scenes[0]).toMatchObject({ caption: 'now', before: [] });
				expect(scenes[0]!.now.length).toBeGreaterThan(0);
				for (const { caption } of scenes) expect(captions).toContain(caption);
			}
	});

	test('draws no step where the office has not said how it wants a mark taken back', () => {
		expect(scenesFor('overvote', 'undecided', 'holding').map(({ caption }) => caption)).toEqual(['now']);
	});

	test('never draws another mistake: marks for two parties are in two contests, and the example has one', () => {
		expect(() => scenesFor('crossover', 'replacement-only', 'holding')).toThrow('got "crossover"');
		expect(() => scenesFor('correct', 'replacement-only', 'holding')).toThrow(RangeError);
	});
});
