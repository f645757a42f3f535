import { checkMishap } from './checkMishap';
import { FARTHEST_PT, NIB_MM, type Mishap, type PageInk, type Stroke, type Tool } from './stroke';

/** Ink as a file holds it: of one ballot, page by page. */
export interface InkDocument {
	/** Id of the election, where the file names one. */
	readonly election?: string;
	/** Id of the ballot style, where the file names one. */
	readonly style?: string;
	readonly pages: readonly PageInk[];
}

/** Why ink is refused: a code to count by, and one line with place, what was expected and what came. */
export interface InkProblem {
	readonly code: string;
	readonly message: string;
}

export type CheckedInk =
	| { readonly ink: InkDocument; readonly problem?: undefined }
	| { readonly ink?: undefined; readonly problem: InkProblem };

/** More than a day of writing without a pause, sampled 120 times a second, is no ballot: these keep a file from stalling us. */
export const MOST_POINTS = 2_000_000;
export const MOST_STROKES = 20_000;
export const MOST_PAGES = 100;
export const MOST_MISHAPS = 50;

/** Paper that all strokes together may cover, in square millimetres: ten letter pages painted over. */
export const MOST_INK_MM2 = 600_000;

const TOOLS = Object.keys(NIB_MM) as Tool[];
const MM_PER_PT = 25.4 / 72;

/** Widest nib a stroke may name, in millimetres. */
const WIDEST_MM = 20;

/**
 * Checks a parsed ink document: `{election?, style?, page, strokes, mishaps?}` or `{election?, style?,
 * pages: [{page, strokes, mishaps?}]}`, points `[x, y, tMs?]`. Stops at the first problem: ink is written
 * by programs, and a faulty program's second fault is the first one again. Never throws.
 */
export function checkInk(document: unknown): CheckedInk {
	const budget = { points: 0, strokes: 0, mishaps: 0, areaMm2: 0 };
	if (!isRecord(document)) return refuse('not-an-object', `ink: expected an object, got ${show(document)}`);
	const { election, style } = document;
	if (election !== undefined && typeof election !== 'string')
		return refuse('bad-election', `election: expected the id of an election, got ${show(election)}`);
	if (style !== undefined && typeof style !== 'string')
		return refuse('bad-style', `style: expected the id of a ballot style, got ${show(style)}`);
	const listed = pagesOf(document);
	if ('problem' in listed) return listed;
	const pages: PageInk[] = [];
	for (const [where, entry] of listed.entries) {
		const checked = checkPage(where, entry, budget);
		if ('problem' in checked) return checked;
		if (pages.some(({ page }) => page === checked.ink.page))
			return refuse('duplicate-page', `${where}page: expected each page once, got page ${checked.ink.page} again`);
		pages.push(checked.ink);
	}
	return {
		ink: { ...(election === undefined ? {} : { election }), ...(style === undefined ? {} : { style }), pages }
	};
}

type Refusal = { readonly problem: InkProblem };
type Entries = readonly (readonly [where: string, entry: unknown])[];

interface Budget {
	points: number;
	strokes: number;
	mishaps: number;
	areaMm2: number;
}

const refuse = (code: string, message: string): Refusal => ({ problem: { code, message } });

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
	typeof value === 'object' && value !== null && !Array.isArray(value);

/** The pages of either form, each with the path to it. */
function pagesOf(document: Readonly<Record<string, unknown>>): Refusal | { readonly entries: Entries } {
	const { pages, page, strokes } = document;
	if (pages === undefined) return { entries: [['', document]] };
	if (page !== undefined || strokes !== undefined)
		return refuse('page-and-pages', 'ink: expected either "page" with "strokes" or "pages", got both');
	if (!Array.isArray(pages) || pages.length === 0)
		return refuse('no-pages', `pages: expected a list of at least one page, got ${show(pages)}`);
	if (pages.length > MOST_PAGES)
		return refuse('too-many-pages', `pages: expected at most ${MOST_PAGES} pages, got ${pages.length}`);
	return { entries: pages.map((entry: unknown, index) => [`pages[${index}].`, entry] as const) };
}

function checkPage(where: string, entry: unknown, budget: Budget): Refusal | { readonly ink: PageInk } {
	if (!isRecord(entry))
		return refuse('bad-page', `${where.slice(0, -1)}: expected {page, strokes}, got ${show(entry)}`);
	const { page, strokes, mishaps = [] } = entry;
	if (typeof page !== 'number' || !Number.isSafeInteger(page) || page < 1)
		return refuse('bad-page', `${where}page: expected a whole number from 1, got ${show(page)}`);
	if (!Array.isArray(strokes))
		return refuse('bad-strokes', `${where}strokes: expected a list of strokes, got ${show(strokes)}`);
	budget.strokes += strokes.length;
	if (budget.strokes > MOST_STROKES)
		return refuse(
			'too-many-strokes',
			`${where}strokes: expected at most ${MOST_STROKES} strokes, got ${budget.strokes}`
		);
	for (let i = 0; i < strokes.length; i++) {
		const problem = checkStroke(`${where}strokes[${i}]`, strokes[i], budget);
		if (problem) return problem;
	}
	if (!Array.isArray(mishaps))
		return refuse('bad-mishap', `${where}mishaps: expected a list of mishaps, got ${show(mishaps)}`);
	budget.mishaps += mishaps.length;
	if (budget.mishaps > MOST_MISHAPS)
		return refuse(
			'too-many-mishaps',
			`${where}mishaps: expected at most ${MOST_MISHAPS} mishaps, got ${budget.mishaps}`
		);
	for (let i = 0; i < mishaps.length; i++) {
		const problem = checkMishap(`${where}mishaps[${i}]`, mishaps[i], (path, stroke) => {
			budget.strokes += 1;
			return checkStroke(path, stroke, budget)?.problem;
		});
		if (problem) return { problem };
	}
	return {
		ink: {
			page,
			strokes: strokes as readonly Stroke[],
			...(mishaps.length === 0 ? {} : { mishaps: mishaps as readonly Mishap[] })
		}
	};
}

function checkStroke(where: string, stroke: unknown, budget: Budget): Refusal | undefined {
	if (!isRecord(stroke)) return refuse('bad-stroke', `${where}: expected {tool, points}, got ${show(stroke)}`);
	const { tool, points, widthMm } = stroke;
	const known = TOOLS.find((name) => name === tool);
	if (!known) return refuse('unknown-tool', `${where}.tool: expected one of ${TOOLS.join(', ')}, got ${show(tool)}`);
	if (widthMm !== undefined && !(typeof widthMm === 'number' && widthMm > 0 && widthMm <= WIDEST_MM))
		return refuse('bad-width', `${where}.widthMm: expected more than 0 and at most ${WIDEST_MM}, got ${show(widthMm)}`);
	if (!Array.isArray(points))
		return refuse('bad-points', `${where}.points: expected a list of points [x, y, tMs?], got ${show(points)}`);
	budget.points += points.length;
	if (budget.points > MOST_POINTS)
		return refuse(
			'too-many-points',
			`${where}.points: expected at most ${MOST_POINTS} points in all, got ${budget.points}`
		);
	let lengthPt = 0;
	let lastX = NaN;
	let lastY = NaN;
	for (let i = 0; i < points.length; i++) {
		const point: unknown = points[i];
		if (!isPoint(point))
			return refuse(
				'bad-point',
				`${where}.points[${i}]: expected [x, y] or [x, y, tMs] of finite numbers, got ${show(point)}`
			);
		const [x, y] = point;
		if (Math.abs(x) > FARTHEST_PT || Math.abs(y) > FARTHEST_PT)
			return refuse(
				'out-of-range',
				`${where}.points[${i}]: expected coordinates from -${FARTHEST_PT} to ${FARTHEST_PT} points, got ${show(point)}`
			);
		if (i > 0) lengthPt += Math.hypot(x - lastX, y - lastY);
		lastX = x;
		lastY = y;
	}
	const nibMm = widthMm ?? NIB_MM[known];
	budget.areaMm2 += (lengthPt * MM_PER_PT + nibMm) * nibMm;
	if (budget.areaMm2 > MOST_INK_MM2)
		return refuse(
			'too-much-ink',
			`${where}: expected ink over at most ${MOST_INK_MM2} square millimetres in all, got ${Math.round(budget.areaMm2)}; is it the ink of one ballot?`
		);
	return undefined;
}

function isPoint(value: unknown): value is readonly [number, number, number?] {
	return (
		Array.isArray(value) &&
		(value.length === 2 || value.length === 3) &&
		Number.isFinite(value[0]) &&
		Number.isFinite(value[1]) &&
		(value.length === 2 || Number.isFinite(value[2]))
	);
}

/** Longest piece of a faulty value that goes into a message. */
const SHOWN_CHARACTERS = 60;

/** A faulty value in one short line. */
function show(value: unknown): string {
	if (value === undefined) return 'nothing';
	if (typeof value === 'number') return String(value);
	if (typeof value === 'string') return shorten(JSON.stringify(value.slice(0, SHOWN_CHARACTERS)));
	if (Array.isArray(value))
		return value.length <= 4 && value.every((part) => typeof part !== 'object' || part === null)
			? `[${value.map(show).join(', ')}]`
			: `a list of ${value.length}`;
	if (typeof value === 'object' && value !== null) return 'an object';
	return value === null || typeof value === 'boolean' ? String(value) : `a ${typeof value}`;
}

const shorten = (text: string): string =>
	text.length > SHOWN_CHARACTERS ? `${text.slice(0, SHOWN_CHARACTERS)}…` : text;
