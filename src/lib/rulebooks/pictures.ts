import { around, grow, type Box } from '$core/geometry';
import { placeMark, type PlaceableMark } from '$core/ink/placeMark';
import type { Stroke, Tool } from '$core/ink/stroke';
import { writeSquiggle } from '$core/ink/writeSquiggle';
import type { ChoiceLayout, Layout, PageLayout } from '$core/layout/layout';
import type { Mark } from '$core/marks/mark';
import { randomFrom } from '$core/random';
import type { Told } from '$core/rules/facts';
import type { Saying } from '$core/rules/vocabulary';

/** The sheets that pictures are drawn on: ids of ballot styles. */
export type SheetId = 'one' | 'parties';

/** In place of a picture's id: marks that somebody draws. */
export const OWN = 'own';

/** `note`: handwriting behind the name; its words are squiggles, and a person says what they are. */
type PictureMark = PlaceableMark | 'note';

/** One ready picture: marks in words, drawn by the same hand as every placed mark. */
export interface Picture {
	/** In the address, and a key of `rulesPage.pictures.` */
	readonly id: string;
	readonly sheet: SheetId;
	/** By choice, in the order they are made; with a ballpoint where no other tool is named. */
	readonly marks: readonly (readonly [choice: string, mark: PictureMark, tool?: Tool])[];
	/** Handwriting below the contest. */
	readonly below?: true;
	/** What a person says that the handwriting is: at a choice, or (without one) below the contest. */
	readonly says?: { readonly saying: Saying; readonly choice?: string; readonly names?: string };
}

/** The cases on which published rules part most, each as one picture. */
export const PICTURES: readonly Picture[] = [
	{ id: 'ring', sheet: 'one', marks: [['A', 'circle-name']] },
	{ id: 'check-beside', sheet: 'one', marks: [['A', 'after-name']] },
	{ id: 'dot', sheet: 'one', marks: [['A', 'dot']] },
	{
		id: 'one-struck',
		sheet: 'one',
		marks: [
			['A', 'fill'],
			['B', 'fill'],
			['B', 'cross-out']
		]
	},
	{
		id: 'struck-alone',
		sheet: 'one',
		marks: [
			['A', 'fill'],
			['A', 'cross-out']
		]
	},
	{
		id: 'rubbed-out',
		sheet: 'one',
		marks: [
			['A', 'fill'],
			['B', 'fill', 'pencil'],
			['B', 'erase']
		]
	},
	{
		id: 'one-ringed',
		sheet: 'one',
		marks: [
			['A', 'fill'],
			['B', 'fill'],
			['A', 'circle-name']
		]
	},
	{
		id: 'this-one',
		sheet: 'one',
		marks: [
			['A', 'fill'],
			['B', 'fill'],
			['A', 'note']
		],
		says: { saying: 'support', choice: 'A' }
	},
	{ id: 'name-no-target', sheet: 'one', marks: [['W', 'write-in']], says: { saying: 'name', choice: 'W' } },
	{
		id: 'printed-and-written',
		sheet: 'one',
		marks: [
			['A', 'fill'],
			['W', 'write-in']
		],
		says: { saying: 'name', choice: 'W' }
	},
	{
		id: 'printed-name-written',
		sheet: 'one',
		marks: [
			['W', 'fill'],
			['W', 'write-in']
		],
		says: { saying: 'printed-name', choice: 'W', names: 'A' }
	},
	{ id: 'signature', sheet: 'one', marks: [['A', 'fill']], below: true, says: { saying: 'identity' } },
	{ id: 'friendly-note', sheet: 'one', marks: [['A', 'fill']], below: true, says: { saying: 'remark' } },
	{
		id: 'two-parties',
		sheet: 'parties',
		marks: [
			['D', 'fill'],
			['F', 'fill']
		]
	}
];

/** Handwriting outside the rows: this far under the contest, and this large. In points. */
const BELOW_PT = 7;
const NOTE_HEIGHT_PT = 19;
const NOTE_WIDTH_PT = 170;
/** From the end of a name to a note behind it, and its length. */
const BEHIND_PT = 2;
const NOTE_BEHIND_PT = 90;

/** Paper shown around the contests of a picture, in points. */
const AIR_PT = 8;

/** The strokes of a picture on its sheet. The same every time: its hand has a fixed seed. */
export function strokesOf({ marks, below, id }: Picture, layout: Layout): readonly Stroke[] {
	const { shape, side } = layout;
	const page = firstPage(layout);
	const drawn = marks.flatMap(([choice, mark, tool = 'ballpoint'], i): readonly Stroke[] => {
		const row = page.choices.find((one) => one.choice === choice);
		if (!row) throw new RangeError(`strokesOf: expected a row for choice "${choice}" of "${id}", found none`);
		const seed = i + FIRST_SEED;
		return mark === 'note' ? note(behind(row), seed) : placeMark(mark, row, { tool, shape, side, seed });
	});
	return below ? [...drawn, ...note(under(page), id.length)] : drawn;
}

const FIRST_SEED = 3;

const note = (line: Box, seed: number): readonly Stroke[] =>
	writeSquiggle({ tool: 'ballpoint', random: randomFrom(seed), wobblePt: 0.45, speedPtPerMs: 0.16 }, line);

const behind = ({ name }: ChoiceLayout): Box => ({
	x: name.x + name.width + BEHIND_PT,
	y: name.y,
	width: NOTE_BEHIND_PT,
	height: name.height
});

function under({ contests }: PageLayout): Box {
	const { x, y, width, height } = around(contests.map(({ box }) => box));
	return { x: x + width * 0.3, y: y + height + BELOW_PT, width: NOTE_WIDTH_PT, height: NOTE_HEIGHT_PT };
}

/** The parts of the sheet that a picture shows, top to bottom: each contest with what is written below it. */
export function viewsOf({ below }: Picture, layout: Layout): readonly Box[] {
	const page = firstPage(layout);
	return page.contests.map(({ box }) => grow(below ? around([box, under(page)]) : box, AIR_PT));
}

/** What a person has said about the handwriting that was found: each piece of it at the picture's place. */
export function toldOf({ says }: Picture, marks: readonly Mark[]): Told {
	if (!says) return {};
	const { saying, choice, names } = says;
	const words = marks
		.filter((mark) => isHandwriting(mark) && (choice === undefined ? isOutside(mark) : mark.choice === choice))
		.map(({ id }) => [id, { says: saying, ...(names === undefined ? {} : { choice: names }) }] as const);
	return { words: new Map(words) };
}

/** Handwriting, or ink on a write-in line, which is taken for it. */
export const isHandwriting = ({ kind, place }: Mark): boolean => kind === 'writing' || place === 'write-in';
const isOutside = ({ place }: Mark): boolean => place === 'margin' || place === 'heading';

function firstPage({ pages: [page] }: Layout): PageLayout {
	if (!page) throw new RangeError('pictures: expected a sheet with a page, got one with none');
	return page;
}

/** Id of the printed sheet's drawing on the page, which every picture on that sheet uses. */
export const printId = (sheet: SheetId): string => `print-${sheet}`;
