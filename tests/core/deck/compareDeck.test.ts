import { describe, expect, test } from 'vitest';
import { compareDeck, type ReadTarget, type SheetReading } from '$core/deck/compareDeck';
import { DECK_MARKS, type DeckMarkId } from '$core/deck/deckMarks';

const known = (choice: string, drawn: DeckMarkId) => ({
	contest: 'c',
	choice,
	drawn,
	accept: DECK_MARKS[drawn].accept
});
const deck = {
	sheets: [
		{ name: 'card-1', page: 1, targets: [known('a', 'fill'), known('b', 'none')] },
		{ name: 'card-2', page: 1, targets: [known('a', 'check'), known('b', 'light')] }
	]
};
const target = (choice: string, level: ReadTarget['level']): ReadTarget => ({
	contest: 'c',
	choice,
	level,
	score: 0.5
});
const reading = (file: string, ...targets: ReadTarget[]): SheetReading => ({ file, pages: [1], targets });
const first = reading('x/card-1.png', target('a', 'dark'), target('b', 'empty'));
const second = reading('x/card-2.png', target('a', 'unsure'), target('b', 'dark'));

describe('comparing a deck', () => {
	test('finds nothing where every target was read as it was drawn, whatever a light mark was read as', () => {
		const report = compareDeck(deck, [second, first]);
		expect(report).toMatchObject({ differences: [], targets: 4, matchedBy: 'name' });
		expect(report.levels).toEqual({
			fill: { dark: 1, unsure: 0, empty: 0 },
			none: { dark: 0, unsure: 0, empty: 1 },
			check: { dark: 0, unsure: 1, empty: 0 },
			light: { dark: 1, unsure: 0, empty: 0 }
		});
	});

	test.each([
		['a', 'unsure', false],
		['a', 'empty', true],
		['b', 'unsure', false],
		['b', 'dark', true]
	] as const)('names target %s read as %s; is it a flip: %s', (choice, level, isFlip) => {
		const other = choice === 'a' ? target('b', 'empty') : target('a', 'dark');
		const { differences } = compareDeck(deck, [reading('card-1.jpg', other, target(choice, level)), second]);
		expect(differences).toEqual([
			expect.objectContaining({ sheet: 'card-1', file: 'card-1.jpg', contest: 'c', choice, level, isFlip })
		]);
	});

	test('says what was refused, not read, not of the deck, and which target a reading leaves out', () => {
		const refused = { file: 'card-1.png', refused: { code: 'too-dark', message: 'x' } };
		const report = compareDeck(deck, [refused, reading('else.png')]);
		expect(report.refused).toEqual([{ sheet: 'card-1', file: 'card-1.png', code: 'too-dark' }]);
		expect([report.notRead, report.notOfDeck]).toEqual([['card-2'], ['else.png']]);
		const { differences } = compareDeck(deck, [reading('card-1.png', target('a', 'dark')), second]);
		expect(differences).toEqual([expect.objectContaining({ choice: 'b', level: 'missing', isFlip: false })]);
	});

	test('takes scans in order where none is named after a sheet and there is one for each', () => {
		const scans = [
			{ ...first, file: 'scan1.jpg' },
			{ ...second, file: 'scan2.jpg' }
		];
		expect(compareDeck(deck, scans)).toMatchObject({ differences: [], matchedBy: 'order', notRead: [] });
		expect(compareDeck(deck, scans.slice(1))).toMatchObject({ matchedBy: 'name', notRead: ['card-1', 'card-2'] });
	});
});
