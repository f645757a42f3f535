import { expect, it } from 'vitest';
import type { Mark } from '$core/marks/mark';
import { handwritingIn, toldBy } from '$lib/rulebooks/spoken';

const mark = (id: string, kind: Mark['kind'], place: Mark['place'], choice?: string): Mark => ({
	id,
	page: 1,
	kind,
	place,
	...(choice === undefined ? {} : { choice }),
	box: { x: 0, y: 0, width: 1, height: 1 },
	confidence: 1,
	darkness: 1
});

const note = mark('m1', 'writing', 'after-name', 'A');

it('what was said about a note stays with it when a mark above it is numbered first', () => {
	const spoken = new Map([[handwritingIn([note])[0]!.place, { says: 'support' } as const]]);
	expect(toldBy(spoken, [note]).words).toEqual(new Map([['m1', { says: 'support' }]]));
	const later = [mark('m1', 'fill', 'in-target', 'A'), { ...note, id: 'm2' }];
	expect(toldBy(spoken, later).words).toEqual(new Map([['m2', { says: 'support' }]]));
});

it('two pieces at one place are told apart, and ink on a write-in line is one', () => {
	const pieces = [
		note,
		{ ...note, id: 'm2' },
		mark('m3', 'unsure', 'write-in', 'W'),
		mark('m4', 'ring', 'on-name', 'A')
	];
	const places = handwritingIn(pieces).map(({ place }) => place);
	expect(places).toHaveLength(3);
	expect(new Set(places).size).toBe(3);
});

it('nothing is told of handwriting of which nobody has spoken', () => {
	expect(toldBy(new Map(), [note])).toEqual({});
});
