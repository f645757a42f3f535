import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stackNotes, type WantedNote } from '$lib/paper/stackNotes';

const anyNotes = fc
	.array(fc.record({ wantedPx: fc.integer({ min: 0, max: 1000 }), heightPx: fc.integer({ min: 20, max: 300 }) }), {
		minLength: 1,
		maxLength: 12
	})
	.map((notes): WantedNote[] => notes.map((note, i) => ({ id: String(i), ...note })));

describe('notes in the margin', () => {
	it('never overlap, never leave the top and keep the order of what they speak of', () => {
		fc.assert(
			fc.property(anyNotes, fc.nat(), (notes, pick) => {
				const tops = stackNotes(notes, 12, notes[pick % notes.length]?.id);
				const placed = [...notes]
					.sort((a, b) => a.wantedPx - b.wantedPx)
					.map((note) => ({ top: tops.get(note.id)!, heightPx: note.heightPx }));
				expect(placed[0]!.top).toBeGreaterThanOrEqual(0);
				for (let i = 1; i < placed.length; i += 1)
					expect(placed[i]!.top).toBeGreaterThanOrEqual(placed[i - 1]!.top + placed[i - 1]!.heightPx + 12);
			})
		);
	});

	it('stand where they want to when there is room', () => {
		const notes = [
			{ id: 'a', wantedPx: 10, heightPx: 50 },
			{ id: 'b', wantedPx: 200, heightPx: 50 }
		];
		expect([...stackNotes(notes, 12)]).toEqual([
			['a', 10],
			['b', 200]
		]);
	});

	it('make room for the current one', () => {
		const notes = [
			{ id: 'a', wantedPx: 300, heightPx: 100 },
			{ id: 'b', wantedPx: 320, heightPx: 100 },
			{ id: 'c', wantedPx: 340, heightPx: 100 }
		];
		const tops = stackNotes(notes, 10, 'b');
		expect(tops.get('b')).toBe(320);
		expect(tops.get('a')).toBe(210);
		expect(tops.get('c')).toBe(430);
	});
});
