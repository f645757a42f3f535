import { ballotOf } from '$core/election/ballot';
import { county } from '$core/election/demo';
import type { Contest, Election, TargetShape } from '$core/election/election';
import type { Box } from '$core/geometry';
import type { GreyImage } from '$core/image';
import type { ChoiceLayout, Layout } from '$core/layout/layout';
import { layOut } from '$core/layout/layOutBallot';
import { printPage } from '$core/page/printPage';
import en from '$locales/en.json';

/** `plain`: contests without parties. `parties`: a primary of two parties on one sheet. `ranked`: one contest is ranked. */
export const SHEETS = ['plain', 'parties', 'ranked'] as const;
export type SheetName = (typeof SHEETS)[number];

/** A printed ballot without ink. */
export interface Sheet {
	readonly election: Election;
	readonly layout: Layout;
	readonly prints: readonly GreyImage[];
	readonly contests: readonly Contest[];
}

/** The contest in which a picture is drawn, by what the picture needs. */
export const CONTEST_OF = {
	one: 'sheriff',
	several: 'commissioners',
	measure: 'measure-1',
	partisan: 'senate-lantern',
	ranked: 'treasurer'
} as const;
export type ContestName = keyof typeof CONTEST_OF;

const STYLE_OF: Readonly<Record<SheetName, string>> = { plain: 'cairnwold', parties: 'ferrystead', ranked: 'ranked' };

/** The demo county with a ranked contest of four candidates and four ranks on a style of its own. */
const withRanking: Election = {
	...county,
	contests: county.contests.map((contest) =>
		contest.id === CONTEST_OF.ranked
			? {
					...contest,
					kind: 'ranked',
					ranks: 4,
					choices: contest.choices.filter(({ kind }) => kind === 'candidate')
				}
			: contest
	),
	styles: [
		{
			id: STYLE_OF.ranked,
			name: { en: 'Ranked', es: 'Por rangos' },
			precincts: [],
			contests: [CONTEST_OF.ranked, CONTEST_OF.one, CONTEST_OF.measure]
		}
	]
};

const printed = new Map<string, Sheet>();

/** A sheet with targets of one shape; printed once. */
export function sheetOf(name: SheetName, shape: TargetShape): Sheet {
	const key = `${name} ${shape}`;
	const known = printed.get(key);
	if (known) return known;
	const base = name === 'ranked' ? withRanking : county;
	const election = { ...base, target: { ...base.target, shape } };
	const layout = layOut(election, STYLE_OF[name], { en: en.layout }, ['en']);
	const sheet: Sheet = {
		election,
		layout,
		prints: layout.pages.map(({ page }) => printPage(layout, page)),
		contests: ballotOf(election, layout.style).contests
	};
	printed.set(key, sheet);
	return sheet;
}

/**
 * What cells call a choice: printed names A, B, C, … in the order of the sheet, write-in lines W, W2, …,
 * answers YES and NO.
 */
export function rolesOf({ choices }: Contest): ReadonlyMap<string, string> {
	let names = 0;
	let lines = 0;
	const roles = new Map<string, string>();
	for (const { id, kind, answer } of choices) {
		if (kind === 'answer') roles.set(answer === 'yes' ? 'YES' : 'NO', id);
		else if (kind === 'write-in') roles.set((lines += 1) === 1 ? 'W' : `W${lines}`, id);
		else roles.set(String.fromCharCode('A'.charCodeAt(0) + names++), id);
	}
	return roles;
}

/**
 * The rows of one contest by role; of a ranked contest its targets, by role and rank ("A1", "B3"). What is drawn
 * at A and B elsewhere is drawn at the two answers of a measure.
 */
export function rowsOf(contest: Contest, layout: Layout): ReadonlyMap<string, ChoiceLayout> {
	const roleOf = new Map([...rolesOf(contest)].map(([role, id]) => [id, role]));
	const own = layout.pages.flatMap(({ choices }) => choices.filter((row) => row.contest === contest.id));
	const rows = new Map(own.map((row) => [`${roleOf.get(row.choice) ?? ''}${row.rank ?? ''}`, row]));
	for (const [role, answer] of ANSWERS) {
		const row = rows.get(answer);
		if (row) rows.set(role, row);
	}
	return rows;
}

const ANSWERS = [
	['A', 'YES'],
	['B', 'NO']
] as const;

export const pageOf = (contest: string, layout: Layout): number => placed(contest, layout).page;

export const headingOf = (contest: string, layout: Layout): Box => placed(contest, layout).heading;

function placed(contest: string, { pages }: Layout): { readonly page: number; readonly heading: Box } {
	for (const { page, contests } of pages) {
		const found = contests.find((one) => one.contest === contest);
		if (found) return { page, heading: found.heading };
	}
	throw new RangeError(`placed: expected a contest of the layout, got "${contest}"`);
}
