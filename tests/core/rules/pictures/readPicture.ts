import type { Contest, TargetShape } from '$core/election/election';
import { sharedArea } from '$core/geometry';
import type { Stroke } from '$core/ink/stroke';
import { findMarks } from '$core/marks/findMarks';
import type { Mark, PageMarks } from '$core/marks/mark';
import { numberMarks } from '$core/marks/numberMarks';
import { inkPage } from '$core/page/inkPage';
import { readMachine } from '$core/reading/readMachine';
import type { MachineStatement } from '$core/reading/statement';
import { gatherFacts, type BallotFacts, type Told } from '$core/rules/facts';
import type { Saying } from '$core/rules/vocabulary';
import { CORRECTED } from './corrected';
import { FILLED_AND_MORE } from './filledAndMore';
import { MARKED_ONCE } from './markedOnce';
import { penFor, type Pen } from './pen';
import type { At, Situation, Words } from './picture';
import { CONTEST_OF, headingOf, pageOf, rolesOf, rowsOf, sheetOf, type Sheet } from './sheets';
import { WHOLE_SHEET } from './wholeSheet';
import { WRITTEN_IN } from './writtenIn';

/** Every picture that a cell may name. */
export const PICTURES: Readonly<Record<string, Situation>> = {
	...MARKED_ONCE,
	...FILLED_AND_MORE,
	...CORRECTED,
	...WRITTEN_IN,
	...WHOLE_SHEET
};

export interface PictureOptions {
	/** The same odd mark in every contest that can show it, the others blank; without it the others are filled normally. */
	readonly everywhere?: boolean;
	readonly shape?: TargetShape;
}

/** A picture after it was drawn, scanned and read. */
export interface ReadPicture {
	readonly sheet: Sheet;
	/** The contest in which the situation is drawn. */
	readonly contest: Contest;
	readonly pages: readonly PageMarks[];
	readonly machine: ReadonlyMap<string, MachineStatement>;
	readonly told: Omit<Told, 'words'>;
	/** What people say of the handwriting, by mark. */
	readonly words: ReadonlyMap<string, { readonly says: Saying; readonly choice?: string }>;
}

const SEED = 7;
const read = new Map<string, ReadPicture>();

/** Draws, scans and reads a picture; each once. Throws for a name that no picture has. */
export function readPicture(name: string, { everywhere = false, shape }: PictureOptions = {}): ReadPicture {
	const situation = Object.hasOwn(PICTURES, name) ? PICTURES[name] : undefined;
	if (!situation)
		throw new RangeError(`readPicture: expected one of ${Object.keys(PICTURES).join(', ')}, got "${name}"`);
	const printed = shape ?? situation.shape ?? 'oval';
	const key = `${name} ${everywhere} ${printed}`;
	const known = read.get(key);
	if (known) return known;
	const fresh = drawAndRead(situation, everywhere, printed);
	read.set(key, fresh);
	return fresh;
}

/** The facts of a picture as a rulebook gets them. `says` stands for what a person reads in the contest's handwriting. */
export function factsOf(
	{ sheet, pages, machine, told, words }: ReadPicture,
	given: Omit<Told, 'words'> & { readonly says?: Saying | null } = {}
): BallotFacts {
	const { says, ...rest } = given;
	const said =
		says === undefined
			? words
			: says === null
				? new Map<string, never>()
				: new Map([...words].map(([id, one]) => [id, { ...one, says }] as const));
	return gatherFacts(sheet.election, sheet.layout, pages, machine, { ...told, ...rest, words: said });
}

function drawAndRead(situation: Situation, everywhere: boolean, shape: TargetShape): ReadPicture {
	const sheet = sheetOf(situation.sheet ?? 'plain', shape);
	const { layout, contests, election, prints } = sheet;
	const pen = penFor(shape, layout.side, SEED);
	const main = CONTEST_OF[situation.contest ?? 'one'];
	const contest = contests.find(({ id }) => id === main);
	if (!contest) throw new RangeError(`drawAndRead: expected a contest "${main}" on the sheet, found none`);
	const strokes = new Map<number, Stroke[]>(layout.pages.map(({ page }) => [page, []]));
	const words: { readonly page: number; readonly words: Words; readonly contest: Contest }[] = [];
	for (const one of contests) {
		const page = pageOf(one.id, layout);
		const rows = rowsOf(one, layout);
		const isOdd = one.id === main || (everywhere && situation.needs.every((role) => rows.has(role)));
		const at = atRows(one, rows);
		const heading = headingOf(one.id, layout);
		if (isOdd) strokes.get(page)?.push(...situation.draw(pen, at, heading));
		else if (!everywhere) strokes.get(page)?.push(...normally(one, situation, pen, at));
		if (isOdd)
			words.push(...(situation.words?.(at, heading) ?? []).map((written) => ({ page, words: written, contest: one })));
	}
	if (situation.margin) {
		const page = pageOf(main, layout);
		strokes.get(page)?.push(...pen.write(situation.margin.box));
		words.push({ page, words: situation.margin, contest });
	}
	const pages = numberMarks(
		layout.pages.map(({ page, choices }) => {
			const print = prints[page - 1]!;
			const anchors = choices.map(({ target }) => target);
			const image = inkPage(print, { page, strokes: strokes.get(page) ?? [] }, anchors);
			return findMarks(image, print, layout, page, { thresholds: election.thresholds });
		})
	);
	return {
		sheet,
		contest,
		pages,
		machine: new Map(contests.map((one) => [one.id, readMachine(one, pages)])),
		told: situation.told ?? {},
		words: new Map(
			words.map(({ page, words: { box, says, names }, contest: own }) => {
				const choice = names === undefined ? undefined : rolesOf(own).get(names);
				return [writingAt(pages, page, box).id, { says, ...(choice === undefined ? {} : { choice }) }] as const;
			})
		)
	};
}

function atRows({ id }: Contest, rows: ReturnType<typeof rowsOf>): At {
	return (role) => {
		const row = rows.get(role);
		if (!row)
			throw new RangeError(`expected a role of contest "${id}" (${[...rows.keys()].join(', ')}), got "${role}"`);
		return row;
	};
}

/** As many choices marked as allowed; of a party's contests only those of the first party, which is preferred. */
function normally(
	contest: Contest,
	{ blank = [], filled = [], elsewhere = 'fill' }: Situation,
	pen: Pen,
	at: At
): readonly Stroke[] {
	const { id, party, voteFor, kind } = contest;
	if (blank.includes(id) || (party !== undefined && party !== PREFERRED && !filled.includes(id))) return [];
	const first = [...rolesOf(contest).keys()].slice(0, voteFor);
	return first.flatMap((role) => pen.place(elsewhere, at(kind === 'ranked' ? `${role}1` : role)));
}

const PREFERRED = 'lantern';

/** The mark that a piece of handwriting was read as: it takes in most of the box. */
function writingAt(pages: readonly PageMarks[], page: number, box: Words['box']): Mark {
	const found = pages
		.flatMap(({ marks }) => marks)
		.filter((mark) => mark.page === page && sharedArea(mark.box, box) > 0)
		.sort((a, b) => sharedArea(b.box, box) - sharedArea(a.box, box))[0];
	if (!found)
		throw new RangeError(`writingAt: expected a mark on page ${page} at ${JSON.stringify(box)}, the reader found none`);
	return found;
}
