import { describe, expect, it } from 'vitest';
import type { Mark } from '$core/marks/mark';
import { inkPage } from '$core/page/inkPage';
import { numberMarks } from '$core/marks/numberMarks';
import { printPage } from '$core/page/printPage';
import { readMarks, readPage } from '$core/read';
import { compareRulebooks } from '$core/rules/compareRulebooks';
import { factsOf } from '$lib/rulebooks/factsOf';
import { PICTURES, strokesOf, toldOf, viewsOf } from '$lib/rulebooks/pictures';
import { pictureElection, pictureSheets } from '$lib/rulebooks/pictureSheets.server';
import { SETS } from '../../core/rules/sets';
import en from '$locales/en.json';
import es from '$locales/es.json';

const sheets = { en: pictureSheets('en', en.layout), es: pictureSheets('es', es.layout) };

/** What must be found on each picture for its title to be true, in any order. */
const MEANT: Readonly<Record<string, readonly string[]>> = {
	ring: ['ring on-name A'],
	'check-beside': ['check after-name A'],
	dot: ['dot in-target A'],
	'one-struck': ['fill in-target A', 'fill in-target B', 'strike on-name B'],
	'struck-alone': ['fill in-target A', 'strike on-name A'],
	'rubbed-out': ['fill in-target A', 'erasure in-target B'],
	'one-ringed': ['fill in-target A', 'fill in-target B', 'ring on-name A'],
	'this-one': ['fill in-target A', 'fill in-target B', 'writing after-name A'],
	'name-no-target': ['writing write-in W'],
	'printed-and-written': ['fill in-target A', 'writing write-in W'],
	'printed-name-written': ['fill in-target W', 'writing write-in W'],
	signature: ['fill in-target A', 'writing margin'],
	'friendly-note': ['fill in-target A', 'writing margin'],
	'two-parties': ['fill in-target D', 'fill in-target F']
};

const said = ({ kind, place, choice = '' }: Mark): string => `${kind} ${place} ${choice}`.trim();

describe.each(['en', 'es'] as const)('the pictures of marks in %s', (lang) => {
	const { layouts, found } = sheets[lang];

	it.each(PICTURES)('are read by the reader as they are meant: $id', ({ id }) => {
		// Two words of a note may be found as two marks.
		expect([...new Set(found[id]?.marks.map(said))].sort()).toEqual([...(MEANT[id] ?? [])].sort());
	});

	it.each(PICTURES.filter(({ says }) => says))('have every piece of handwriting told: $id', (picture) => {
		const marks = found[picture.id]?.marks ?? [];
		const told = toldOf(picture, marks).words;
		const written = marks.filter(({ kind }) => kind === 'writing').map(({ id }) => id);
		expect(written.length).toBeGreaterThan(0);
		expect([...(told?.keys() ?? [])]).toEqual(written);
		expect([...(told?.values() ?? [])].every(({ says }) => says === picture.says?.saying)).toBe(true);
	});

	it('have no handwriting of which nobody says what it is', () => {
		for (const picture of PICTURES.filter(({ says }) => !says))
			expect(found[picture.id]?.marks.filter(({ kind }) => kind === 'writing')).toEqual([]);
	});

	it('show every mark that was found on them', () => {
		for (const picture of PICTURES) {
			const views = viewsOf(picture, layouts[picture.sheet]);
			for (const { id, box } of found[picture.id]?.marks ?? []) {
				const whole = views.some(
					(view) =>
						box.x >= view.x &&
						box.y >= view.y &&
						box.x + box.width <= view.x + view.width &&
						box.y + box.height <= view.y + view.height
				);
				expect([picture.id, id, whole]).toEqual([picture.id, id, true]);
			}
		}
	});

	it('have a title in the page’s language, and words for what is written', () => {
		const texts: Readonly<Record<string, { title: string; says?: string }>> = { en, es }[lang].rulesPage.pictures;
		expect(Object.keys(texts).sort()).toEqual(PICTURES.map(({ id }) => id).sort());
		for (const { id, says } of PICTURES) expect([id, texts[id]?.says !== undefined]).toEqual([id, says !== undefined]);
	});
});

it.each(PICTURES.filter(({ says }) => !says))(
	'what rulebooks make of a picture is what the whole reader makes of its strokes: $id',
	(picture) => {
		const { layouts, found } = sheets.en;
		const layout = layouts[picture.sheet];
		const print = printPage(layout, 1);
		const anchors = layout.pages[0]!.choices.map(({ target }) => target);
		const image = inkPage(print, { page: 1, strokes: strokesOf(picture, layout) }, anchors);
		const { facts } = factsOf(pictureElection, layout, found[picture.id]!, {});
		const open = { election: pictureElection, layout, rulebook: SETS[0]![1], prints: [print] };
		const pages = numberMarks([readPage(image, 1, open)]);
		for (const [id, rulebook] of SETS) {
			const [verdict] = compareRulebooks([rulebook], facts);
			const whole = readMarks(pages, { ...open, rulebook });
			const told = verdict!.contests.map(({ contest, outcome, votes }) => [id, contest, outcome, votes]);
			expect(told).toEqual(whole.contests.map(({ contest, people }) => [id, contest, people.outcome, people.votes]));
			expect(verdict!.ballot).toBe(whole.ballot.outcome);
		}
	}
);
