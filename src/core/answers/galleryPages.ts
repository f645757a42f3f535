import type { Choice, Contest, Election, Text } from '../election/election';
import { around, grow, type Box } from '../geometry';
import type { GreyImage } from '../image';
import { placeMark } from '../ink/placeMark';
import type { Mishap, PageInk, Stroke } from '../ink/stroke';
import { writeSquiggle } from '../ink/writeSquiggle';
import type { ChoiceLayout, Layout, PageLayout } from '../layout/layout';
import { layOut } from '../layout/layOutBallot';
import type { PrintedWords } from '../layout/words';
import { inkPage } from '../page/inkPage';
import { printPage } from '../page/printPage';
import { randomFrom } from '../random';
import { readBallot } from '../read';
import type { ContestReading } from '../reading/statement';
import type { Rulebook } from '../rules/rule';
import { GALLERY_CONTESTS, type GalleryContest, type GalleryPicture, type GalleryRow } from './gallery';

/** What is printed on the made-up contests, in each language of the election. */
export interface GalleryNames {
	readonly title: Text;
	readonly measure: Text;
	readonly a: Text;
	readonly b: Text;
	readonly c: Text;
	readonly yes: Text;
	readonly no: Text;
	readonly writeIn: Text;
}

/** One made-up contest on a page of its own, printed as the office prints its ballots. */
export interface GallerySheet {
	readonly contest: Contest;
	readonly election: Election;
	readonly layout: Layout;
	readonly page: PageLayout;
	/** The part of the page to show. */
	readonly view: Box;
	readonly print: GreyImage;
}

/** Air around the rows, so that a ring around a name is whole. In points. */
const AIR_PT = 9;

/** Lays out and prints the made-up contests in one language, with the election's own targets and settings. */
export function openGallery(
	election: Election,
	names: GalleryNames,
	words: PrintedWords,
	language: string
): ReadonlyMap<GalleryContest, GallerySheet> {
	return new Map(GALLERY_CONTESTS.map((id) => [id, sheetOf(election, contestOf(id, names), words, language)]));
}

function contestOf(id: GalleryContest, names: GalleryNames): Contest {
	const candidate = (row: 'a' | 'b' | 'c'): Choice => ({ id: row, kind: 'candidate', name: names[row] });
	if (id === 'measure')
		return {
			id,
			kind: 'measure',
			title: names.measure,
			voteFor: 1,
			choices: [
				{ id: 'a', kind: 'answer', name: names.yes, answer: 'yes' },
				{ id: 'b', kind: 'answer', name: names.no, answer: 'no' }
			]
		};
	const writeIn: Choice = { id: 'write-in', kind: 'write-in', name: names.writeIn };
	return {
		id,
		kind: 'candidates',
		title: names.title,
		voteFor: id === 'pick-two' ? 2 : 1,
		choices: [candidate('a'), candidate('b'), candidate('c'), writeIn]
	};
}

function sheetOf(office: Election, contest: Contest, words: PrintedWords, language: string): GallerySheet {
	const election: Election = {
		...office,
		contests: [contest],
		styles: [{ id: 'example', name: contest.title, precincts: [], contests: [contest.id] }]
	};
	const layout = layOut(election, 'example', words, [language]);
	const page = layout.pages[0];
	const printed = page?.contests[0];
	if (!page || !printed) throw new Error(`openGallery: expected contest "${contest.id}" on page 1, found none`);
	const view = grow(around([printed.box, ...page.choices.map(({ row }) => row)]), AIR_PT);
	return { contest, election, layout, page, view, print: printPage(layout, 1) };
}

/** The ink of a picture, as a hand would put it on its sheet: the very strokes that are drawn and read. */
export function inkOf({ id, marks, mishap, note }: GalleryPicture, sheet: GallerySheet): PageInk {
	const { shape, side } = sheet.layout;
	const strokes = marks.flatMap(({ row, kind, tool = 'ballpoint' }, i) =>
		placeMark(kind, rowOf(sheet, row, id), { tool, shape, side, seed: i + 3 })
	);
	return {
		page: 1,
		strokes: note ? [...strokes, ...noteOn(sheet)] : strokes,
		mishaps: mishap ? [mishapOn(mishap, sheet, id)] : []
	};
}

/** What machine and people come to, from the ink alone. */
export function readPicture(ink: PageInk, sheet: GallerySheet, rulebook: Rulebook): ContestReading {
	const { election, layout, page, print } = sheet;
	const targets = page.choices.map(({ target }) => target);
	const image = inkPage(print, ink, targets);
	const { contests } = readBallot(new Map([[1, image]]), { election, layout, rulebook, prints: [print] });
	const reading = contests[0];
	if (!reading) throw new Error(`readPicture: expected a reading of contest "${sheet.contest.id}", got none`);
	return reading;
}

function rowOf({ page }: GallerySheet, row: GalleryRow, picture: string): ChoiceLayout {
	const found = page.choices.find(({ choice }) => choice === row);
	if (!found) throw new RangeError(`inkOf: picture "${picture}" marks row "${row}", which its contest does not have`);
	return found;
}

/** Two words to the right of the title. */
function noteOn({ page }: GallerySheet): Stroke[] {
	const { box, heading } = page.contests[0] ?? { box: page.choices[0]?.row, heading: undefined };
	if (!box || !heading) throw new RangeError('inkOf: expected a contest with a heading, got none');
	const line = { x: box.x + box.width * 0.55, y: heading.y + 2, width: box.width * 0.42, height: 22 };
	return writeSquiggle({ tool: 'ballpoint', random: randomFrom(11), wobblePt: 0.45, speedPtPerMs: 0.16 }, line);
}

/** Where it asks its question: over or near the second target, so that the marked one stays clear. */
function mishapOn(kind: Mishap['kind'], sheet: GallerySheet, picture: string): Mishap {
	const { target, name } = rowOf(sheet, 'b', picture);
	const marked = rowOf(sheet, 'a', picture).target;
	const [x, y] = [target.x + target.width / 2, target.y + target.height / 2];
	switch (kind) {
		case 'stain':
			return { kind, x: name.x + 70, y: y + 14, radiusPt: 52, seed: 2 };
		case 'smudge':
			return { kind, x: marked.x + marked.width * 0.6, y: marked.y + marked.height / 2, dx: 34, dy: 12 };
		case 'fold':
			return { kind, at: y, along: 'x' };
		case 'bleed': {
			const points = Array.from({ length: 14 }, (_, i): [number, number, number] => [
				x + 34 + i * 2.2,
				y + (i % 2 === 0 ? -4 : 4),
				i * 30
			]);
			return { kind, strokes: [{ tool: 'felt', points }] };
		}
	}
}
