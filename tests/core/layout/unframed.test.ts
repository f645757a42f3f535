import { expect, test } from 'vitest';
import { county } from '$core/election/demo';
import { drawPage } from '$core/layout/draw';
import { layOut } from '$core/layout/layOutBallot';
import { unframed } from '$core/layout/unframed';
import en from '$locales/en.json';

test('unframed takes the outer svg off a drawn page and leaves all that is in it', () => {
	const svg = drawPage(layOut(county, county.styles[0]!.id, { en: en.layout }, ['en']), 1);
	const inside = unframed(svg);
	expect(inside).not.toMatch(/<\/?svg/);
	expect(svg).toContain(inside);
	expect(inside.match(/<path/g)).toEqual(svg.match(/<path/g));
	expect(inside.match(/<text/g)).toEqual(svg.match(/<text/g));
});
