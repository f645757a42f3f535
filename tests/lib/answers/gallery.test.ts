import { createInstance, type i18n as I18n } from 'i18next';
import { beforeAll, describe, expect, test } from 'vitest';
import { headline } from '$core/advice/headline';
import { machineSays } from '$core/advice/machineSays';
import { peopleSay } from '$core/advice/peopleSay';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import { GALLERY, type GalleryContest, type GalleryPicture } from '$core/answers/gallery';
import { inkOf, openGallery, readPicture, type GallerySheet } from '$core/answers/galleryPages';
import { QUESTIONS } from '$core/answers/questions';
import type { PageInk, Stroke, StrokePoint } from '$core/ink/stroke';
import { NIB_MM } from '$core/ink/stroke';
import { PT_PER_MM, type GreyImage } from '$core/image';
import type { Layout } from '$core/layout/layout';
import { inkPage } from '$core/page/inkPage';
import { printPage } from '$core/page/printPage';
import { readBallot } from '$core/read';
import type { ContestReading } from '$core/reading/statement';
import type { Rulebook } from '$core/rules/rule';
import demo from '$core/rules/sets/demo-county.json' with { type: 'json' };
import alaska from '$core/rules/sets/us-ak.json' with { type: 'json' };
import nebraska from '$core/rules/sets/us-ne.json' with { type: 'json' };
import texas from '$core/rules/sets/us-tx.json' with { type: 'json' };
import en from '$locales/en.json' with { type: 'json' };
import es from '$locales/es.json' with { type: 'json' };
import { galleryNames, showPicture, type PictureLine, type ShownPicture } from '$lib/answers/shownPicture';
import { wordsOf } from '$lib/notes/words';

const LOCALES = { en, es };
const BOOKS = { demo, alaska, texas, nebraska } as unknown as Record<
	'demo' | 'alaska' | 'texas' | 'nebraska',
	Rulebook
>;
type Book = keyof typeof BOOKS;

const i18ns: Record<string, I18n> = {};
const galleries: Record<string, ReadonlyMap<GalleryContest, GallerySheet>> = {};

beforeAll(async () => {
	for (const language of ['en', 'es'] as const) {
		const i18n = createInstance();
		const resources = { [language]: { translation: LOCALES[language] } };
		await i18n.init({ lng: language, resources, interpolation: { escapeValue: false } });
		i18ns[language] = i18n;
		const words = { [language]: LOCALES[language].layout };
		galleries[language] = openGallery(county, galleryNames(i18n, language), words, language);
	}
});

const sheetOf = ({ contest }: GalleryPicture, language = 'en'): GallerySheet => galleries[language]!.get(contest)!;
const pictureOf = (id: string): GalleryPicture => GALLERY.find((picture) => picture.id === id)!;
const shown = (picture: GalleryPicture, book: Book, language = 'en'): ShownPicture =>
	showPicture(picture, sheetOf(picture, language), county, BOOKS[book], i18ns[language]!, language)!;
const reading = (id: string, book: Book): ContestReading => {
	const picture = pictureOf(id);
	return readPicture(inkOf(picture, sheetOf(picture)), sheetOf(picture), BOOKS[book]);
};
const people = (id: string, book: Book): readonly [string, ...string[]] => {
	const { outcome, votes } = reading(id, book).people;
	return [outcome, ...votes];
};

/** The stroke that was drawn as an SVG path. */
function strokeOf({ look, d, widthPt }: PictureLine): Stroke {
	const pairs = [...d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]): StrokePoint => [Number(x), Number(y)]);
	const [first, second] = pairs;
	const isDot = pairs.length === 2 && first?.[0] === second?.[0] && first?.[1] === second?.[1];
	expect(widthPt).toBeCloseTo(NIB_MM[look as Stroke['tool']] * PT_PER_MM, 1);
	return { tool: look as Stroke['tool'], points: isDot ? [first!] : pairs };
}

interface Scan {
	readonly print: GreyImage;
	readonly image: GreyImage;
}
const scans = new Map<string, Scan>();

/** A sheet printed again, and the ink on it as a scanner sees it. */
function scanOf(ink: PageInk, { layout, page }: GallerySheet): Scan {
	const print = printPage(layout, 1);
	return {
		print,
		image: inkPage(
			print,
			ink,
			page.choices.map(({ target }) => target)
		)
	};
}

/** Reads what a page shows, anew: the drawn lines on a sheet printed again. */
function readAnew(
	picture: GalleryPicture,
	lines: readonly PictureLine[],
	book: Book,
	language: string
): ContestReading {
	const sheet = sheetOf(picture, language);
	const { mishaps = [] } = inkOf(picture, sheet);
	const drawn = lines.filter(({ look }) => look in NIB_MM);
	const ink: PageInk = { page: 1, strokes: drawn.map(strokeOf), mishaps };
	const layout: Layout = sheet.layout;
	// What is on the paper does not hang on the rulebook; it is drawn once for all of them.
	const scan = scans.get(picture.id) ?? scanOf(ink, sheet);
	scans.set(picture.id, scan);
	const open = { election: sheet.election, layout, rulebook: BOOKS[book], prints: [scan.print] };
	return readBallot(new Map([[1, scan.image]]), open).contests[0]!;
}

describe.each(Object.keys(BOOKS) as Book[])('a picture’s stated reading, under the rulebook of %s', (book) => {
	test.each(GALLERY.map(({ id }) => id))('is what the reader makes of the drawn lines: %s', (id) => {
		const picture = pictureOf(id);
		const language = 'en';
		const stated = shown(picture, book, language);
		const anew = readAnew(picture, stated.lines, book, language);
		const sheet = sheetOf(picture, language);
		const words = wordsOf(i18ns[language]!, language, sheet.election, sheet.contest);
		expect(stated.head).toBe(words.say('reading.headline', headline(anew, sheet.contest)));
		expect(stated.machine).toEqual(machineSays(anew, sheet.contest).map((one) => words.say('reading.machine', one)));
		const { when, decide } = peopleSay(anew);
		expect(stated.people).toEqual([when, ...(decide ? [decide] : [])].map((one) => words.say('reading.people', one)));
		expect(stated.cites).toEqual([...new Set(anew.people.clauses.map(({ cite }) => cite))]);
	});
});

// The clause beside each expectation is that of the published source; what is drawn and read is ours.
describe('under real rules a picture comes to what the clause says', () => {
	test('a ring around a name', () => {
		expect(people('name-circled', 'texas')).toEqual(['vote', 'a']); // Tex. Elec. Code 65.009(d)(2)
		expect(people('name-circled', 'alaska')).toEqual(['no-vote']); // Alaska Stat. 15.15.360(a)(4), (b)
		expect(people('name-circled', 'nebraska')).toEqual(['no-vote']); // Neb. Rev. Stat. 32-901(2)
	});

	test('a check mark', () => {
		expect(people('check', 'alaska')).toEqual(['vote', 'a']); // Alaska Stat. 15.15.360(a)(1)
		expect(people('check', 'texas')).toEqual(['vote', 'a']); // Tex. Elec. Code 65.009(c)
	});

	test('a resting dot beside a filled oval', () => {
		expect(people('dot', 'alaska')).toEqual(['vote', 'a']); // Edgmon v. State, 152 P.3d 1154 (2007)
	});

	test('more marks than allowed', () => {
		expect(people('two-marked', 'alaska')).toEqual(['overvote']); // Alaska Stat. 15.15.360(a)(3)
		expect(people('two-marked', 'nebraska')).toEqual(['overvote']); // Neb. Rev. Stat. 32-1004
		expect(people('three-of-two', 'nebraska')).toEqual(['overvote']);
	});

	test('one crossed out and another marked', () => {
		expect(people('crossed-out', 'texas')).toEqual(['vote', 'b']); // Tex. Elec. Code 65.009(b), (c)
		expect(people('crossed-out', 'nebraska')).toEqual(['overvote']); // Neb. Rev. Stat. 32-1004
	});

	test('a written name without its oval', () => {
		expect(people('write-in-no-target', 'alaska')).toEqual(['no-vote']); // Alaska Stat. 15.15.360(d)(2)
		expect(people('write-in-no-target', 'nebraska')).toEqual(['no-vote']); // Neb. Rev. Stat. 32-1005
		expect(people('write-in-no-target', 'texas')).toEqual(['vote', 'write-in']); // Tex. Elec. Code 65.009(c)
	});
});

describe('the gallery', () => {
	test('has a picture of its own for each id, a caption in both languages, and an answer to lead to', () => {
		const ids = GALLERY.map(({ id }) => id);
		expect(new Set(ids).size).toBe(ids.length);
		for (const language of ['en', 'es'] as const)
			expect(Object.keys(LOCALES[language].answers.gallery.label).sort()).toEqual([...ids].sort());
		for (const { id, question } of GALLERY) {
			expect(QUESTIONS.some(({ number }) => number === question)).toBe(true);
			expect([id, county.answers.some(({ questions }) => questions.includes(question))]).toEqual([id, true]);
		}
	});

	test('shows no name of the election: the choices are made up', () => {
		const real = county.contests.flatMap(({ choices }) => choices.filter(({ kind }) => kind === 'candidate'));
		for (const [language, gallery] of Object.entries(galleries))
			for (const { page } of gallery.values())
				for (const { text } of page.texts)
					expect([text, real.some(({ name }) => name[language] === text)]).toEqual([text, false]);
	});

	test('reads the same in both languages', () => {
		for (const picture of GALLERY) {
			const [english, spanish] = (['en', 'es'] as const).map((language) =>
				readPicture(inkOf(picture, sheetOf(picture, language)), sheetOf(picture, language), BOOKS.demo)
			);
			expect([picture.id, spanish?.machine.state, spanish?.people.outcome]).toEqual([
				picture.id,
				english?.machine.state,
				english?.people.outcome
			]);
		}
	});

	test('leaves out a picture whose question has no answer', () => {
		const picture = pictureOf('check');
		const answers = county.answers.filter(({ questions }) => !questions.includes(picture.question));
		const office = { ...county, answers };
		expect(showPicture(picture, sheetOf(picture), office, BOOKS.demo, i18ns['en']!, 'en')).toBeUndefined();
	});

	test('refuses a mark on a row that its contest does not have', () => {
		const measure = galleries['en']!.get('measure')!;
		expect(() => inkOf({ ...pictureOf('check'), marks: [{ row: 'c', kind: 'check' }] }, measure)).toThrow(
			/picture "check" marks row "c"/
		);
	});
});
