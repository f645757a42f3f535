import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { isTested, type CellFile } from './cell';
import MATRIX from './matrix.json' with { type: 'json' };

const FOLDER = new URL('./', import.meta.url);
const NOT_CELLS = ['matrix.json', 'tally.json'];
const TALLY = new URL('tally.json', FOLDER);

/** Every file of cells, by its name without the ending; not yet checked. */
export const CELL_FILES: readonly (readonly [name: string, document: unknown])[] = readdirSync(FOLDER)
	.filter((name) => name.endsWith('.json') && !NOT_CELLS.includes(name))
	.sort()
	.map((name) => [name.slice(0, -'.json'.length), JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8')) as unknown]);

/** For each rulebook the situations of which the published rules that were surveyed say something. */
export const SURVEYED: ReadonlyMap<string, readonly number[]> = new Map(Object.entries(MATRIX));

interface Count {
	readonly tested: number;
	readonly skipped: number;
	/** Why, with how often; what stands before the first colon of each reason. */
	readonly reasons: Readonly<Record<string, number>>;
}

/** How many situations are tested, and why others are not. Kept in git, so that a loss is seen. */
export interface CellTally {
	readonly totals: Count & {
		readonly rulebooks: number;
		/** Situations of rulebooks with a published verdict; with at least one test; with a reason instead. */
		readonly surveyed: number;
		readonly surveyedTested: number;
		readonly surveyedSkipped: number;
	};
	/** Rulebooks with published verdicts and no file of cells. */
	readonly missing: readonly string[];
	readonly rulebooks: Readonly<Record<string, Count>>;
}

export function tallyOf(files: readonly CellFile[]): CellTally {
	const byName = new Map(files.map((file) => [file.rulebook, file]));
	const tested = (name: string, row: number, wanted: boolean): boolean =>
		byName.get(name)?.cells.some((cell) => cell.row === row && isTested(cell) === wanted) ?? false;
	const surveyed = [...SURVEYED].flatMap(([name, rows]) => rows.map((row) => ({ name, row })));
	const surveyedTested = surveyed.filter(({ name, row }) => tested(name, row, true));
	return {
		totals: {
			...countOf(files),
			rulebooks: files.length,
			surveyed: surveyed.length,
			surveyedTested: surveyedTested.length,
			surveyedSkipped: surveyed.filter(({ name, row }) => !tested(name, row, true) && tested(name, row, false)).length
		},
		missing: [...SURVEYED.keys()].filter((name) => !byName.has(name)),
		rulebooks: Object.fromEntries(files.map((file) => [file.rulebook, countOf([file])]))
	};
}

function countOf(files: readonly CellFile[]): Count {
	const cells = files.flatMap((file) => file.cells);
	const reasons = new Map<string, number>();
	for (const cell of cells) {
		if (isTested(cell)) continue;
		const reason = cell.skip.split(':')[0] ?? '';
		reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
	}
	const tested = cells.filter(isTested).length;
	return {
		tested,
		skipped: cells.length - tested,
		reasons: Object.fromEntries([...reasons].sort(([a], [b]) => (a < b ? -1 : 1)))
	};
}

export const keptTally = (): unknown => JSON.parse(readFileSync(TALLY, 'utf8'));

export const keepTally = (tally: CellTally): void => {
	writeFileSync(TALLY, `${JSON.stringify(tally, null, '\t')}\n`);
};
