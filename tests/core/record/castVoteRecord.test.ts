import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv';
import { describe, expect, test } from 'vitest';
import { ballotOf } from '$core/election/ballot';
import { county } from '$core/election/demo';
import type { Election } from '$core/election/election';
import { placeMark, type PlaceableMark } from '$core/ink/placeMark';
import type { Stroke } from '$core/ink/stroke';
import { layOut } from '$core/layout/layOutBallot';
import { inkPage } from '$core/page/inkPage';
import { printPage } from '$core/page/printPage';
import { readBallot, type OpenBallot } from '$core/read';
import type { RecordedContest, Report, Snapshot } from '$core/record/cvr';
import { castVoteRecord } from '$core/record/castVoteRecord';
import { rulebookOf, wordsOf } from '../../../src/cli/files';
import { layout, markedSheet } from '../../support/photoCase';

/** NIST's JSON Schema of SP 1500-103 1.0 (github.com/usnistgov/CastVoteRecords, 6a8ff03), which is not part of the project. */
const SCHEMA = join(process.env['FAIRHAND_DATA'] ?? '../shared/data', 'cdf/cvr/NIST_V0_cast_vote_records.json');
const NOW = '2026-08-01T10:00:00Z';

interface Schema {
	readonly $schema?: string;
	readonly definitions: Readonly<
		Record<
			string,
			{ readonly properties?: Readonly<Record<string, { refTypes?: string[]; items?: { refTypes?: string[] } }>> }
		>
	>;
}

const open: OpenBallot = {
	election: county,
	layout,
	rulebook: rulebookOf(county.rulebook),
	prints: layout.pages.map(({ page }) => printPage(layout, page))
};
const { contests } = ballotOf(county, layout.style);

/** The record of the first pages, with these marks at places of them. */
function recordOf(
	marks: readonly (readonly [contest: string, choice: number, mark: PlaceableMark])[],
	seen = [1, 2]
): Report {
	const images = layout.pages
		.filter(({ page }) => seen.includes(page))
		.map(({ page, choices }) => {
			const strokes: Stroke[] = marks.flatMap(([contest, at, mark]) => {
				const choice = choices.filter((one) => one.contest === contest)[at];
				return choice ? placeMark(mark, choice, { tool: 'ballpoint', shape: layout.shape, side: layout.side }) : [];
			});
			const targets = choices.map(({ target }) => target);
			return [page, inkPage(open.prints[page - 1]!, { page, strokes }, targets)] as const;
		});
	return castVoteRecord(readBallot(new Map(images), open), open, 'sheet-1', NOW);
}

const snapshotOf = (report: Report, type: Snapshot['Type']): Snapshot =>
	report.CVR[0]!.CVRSnapshot.find(({ Type }) => Type === type)!;
const contestOf = (report: Report, type: Snapshot['Type'], contest: string): RecordedContest =>
	snapshotOf(report, type).CVRContest.find(({ ContestId }) => ContestId === `contest.${contest}`)!;
const votesOf = ({ CVRContestSelection = [] }: RecordedContest): number =>
	CVRContestSelection.reduce((sum, { TotalNumberVotes = 0 }) => sum + TotalNumberVotes, 0);

const one = contests.find(
	({ kind, voteFor, choices }) => kind === 'candidates' && voteFor === 1 && choices.length > 2
)!;
const withLine = contests.find(({ choices }) => choices.some(({ kind }) => kind === 'write-in'))!;
const line = withLine.choices.findIndex(({ kind }) => kind === 'write-in');

/** Sheets marked as voters do, and what is on them read under several rulebooks. */
const reports = [3, 4, 5, 6, 7, 8, 9, 10].flatMap((seed) => {
	const { page, flat } = markedSheet(seed);
	return [county.rulebook, 'us-tx', 'us-ak', 'us-me'].map((id) => {
		const ballot = { ...open, rulebook: rulebookOf(id) };
		return castVoteRecord(readBallot(new Map([[page, flat]]), ballot), ballot, `sheet-${seed}`, NOW);
	});
});

describe('a practice reading as a cast vote record', () => {
	test('two marks where one is allowed are lost together, with the vote that they cost', () => {
		const report = recordOf([
			[one.id, 0, 'fill'],
			[one.id, 1, 'fill']
		]);
		expect(contestOf(report, 'original', one.id).CVRContestSelection).toHaveLength(2);
		expect(contestOf(report, 'interpreted', one.id)).toMatchObject({
			Overvotes: 1,
			Undervotes: 0,
			Status: ['overvoted', 'invalidated-rules']
		});
		for (const selection of contestOf(report, 'interpreted', one.id).CVRContestSelection!) {
			expect(selection).toMatchObject({ TotalNumberVotes: 0, Status: ['invalidated-rules'] });
			expect(selection.SelectionPosition[0]).toMatchObject({ HasIndication: 'yes', IsAllocable: 'no' });
		}
	});

	test('a mark that is hard to tell is unknown, is given no vote, and asks for people', () => {
		const report = recordOf([[one.id, 0, 'check']]);
		const [selection] = contestOf(report, 'interpreted', one.id).CVRContestSelection!;
		expect(selection).toMatchObject({ TotalNumberVotes: 0, Status: ['needs-adjudication'] });
		expect(selection!.SelectionPosition[0]).toMatchObject({ HasIndication: 'unknown' });
		expect(selection!.SelectionPosition[0]).not.toHaveProperty('IsAllocable');
		expect(snapshotOf(report, 'interpreted').Status).toEqual(['needs-adjudication']);
	});

	test('a blank contest is not indicated, and all its votes are undervotes', () => {
		const contest = contestOf(recordOf([]), 'interpreted', one.id);
		expect(contest).toMatchObject({ Overvotes: 0, Undervotes: 1, Status: ['not-indicated', 'undervoted'] });
		expect(contest).not.toHaveProperty('CVRContestSelection');
	});

	test('a name written without its target is located and left to people, and never made into text', () => {
		const report = recordOf([[withLine.id, line, 'write-in']]);
		const contest = contestOf(report, 'interpreted', withLine.id);
		expect(contest.WriteIns).toBe(1);
		expect(contest.CVRContestSelection).toHaveLength(1);
		expect(contest.CVRContestSelection![0]).toMatchObject({ TotalNumberVotes: 0, Status: ['needs-adjudication'] });
		expect(contest.CVRContestSelection![0]!.SelectionPosition[0]).toMatchObject({
			HasIndication: 'no',
			IsAllocable: 'unknown',
			CVRWriteIn: { '@type': 'CVR.CVRWriteIn' }
		});
	});

	test('what people would decide stands beside what a machine would take, which stays the current one', () => {
		const report = recordOf([
			[one.id, 0, 'fill'],
			[one.id, 0, 'cross-out'],
			[one.id, 1, 'fill']
		]);
		const { people } = readingOf(report, one.id);
		expect(votesOf(contestOf(report, 'interpreted', one.id))).toBe(0);
		expect(people).toContain('vote (');
		const decided = contestOf(report, 'modified', one.id);
		expect(decided).toMatchObject({ Overvotes: 0, Undervotes: 0 });
		expect(decided.CVRContestSelection!.map(({ TotalNumberVotes }) => TotalNumberVotes)).toEqual([0, 1]);
		expect(decided.CVRContestSelection!.map(({ SelectionPosition: [at] }) => at!.HasIndication)).toEqual(['no', 'yes']);
		expect(report.CVR[0]).toMatchObject({ CurrentSnapshotId: 'snapshot.interpreted' });
		// Nobody has looked, so nothing may say that somebody did.
		expect(JSON.stringify(report)).not.toContain('"adjudicated"');
	});

	test('a page that was not seen has no contest in the record', () => {
		const seen = layout.pages[0]!.contests.map(({ contest }) => `contest.${contest}`);
		for (const snapshot of recordOf([], [1]).CVR[0]!.CVRSnapshot)
			expect([...snapshot.CVRContest.map(({ ContestId }) => ContestId)].sort()).toEqual([...seen].sort());
	});

	test('votes given, votes lost and votes not made are as many as the contest allows (SP 1500-103, CVRContest)', () => {
		const allowed = new Map(contests.map(({ id, voteFor }) => [`contest.${id}`, voteFor]));
		let sums = 0;
		for (const report of reports)
			for (const type of ['interpreted', 'modified'] as const)
				for (const contest of snapshotOf(report, type).CVRContest) {
					const sum = votesOf(contest) + (contest.Overvotes ?? 0) + (contest.Undervotes ?? 0);
					expect(sum, `${type} ${contest.ContestId}`).toBe(allowed.get(contest.ContestId));
					sums += 1;
				}
		expect(sums).toBeGreaterThan(200);
	});

	test('the standard’s own schema takes it, and every id in it names what it says', ({ skip }) => {
		if (!existsSync(SCHEMA)) skip(`${SCHEMA} is not there; FAIRHAND_DATA names the folder that holds cdf/`);
		const { $schema: draft4, ...schema } = JSON.parse(readFileSync(SCHEMA, 'utf8')) as Schema;
		expect(draft4).toContain('draft-04');
		const ajv = new Ajv({ strict: false, allErrors: true, formats: FORMATS });
		const validate = ajv.compile(schema);
		for (const report of [...reports, rankedRecord()]) {
			validate(report);
			expect(validate.errors ?? []).toEqual([]);
			expect(danglingIn(report, schema)).toEqual([]);
		}
		const wrong = { ...reports[0]!, Version: '2' };
		expect(validate(wrong)).toBe(false);
	});
});

/** What the record says of people's decision on a contest. */
function readingOf(report: Report, contest: string): { readonly people: string } {
	const messages = snapshotOf(report, 'modified').Annotation.flatMap(({ Message }) => Message);
	return { people: messages.find((message) => message.startsWith(`${contest}:`)) ?? '' };
}

const FORMATS = {
	'date-time': /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/,
	uri: /^[a-z][a-z0-9+.-]*:/i,
	byte: /^[A-Za-z0-9+/=]*$/
};

/** Fields whose `refTypes` in the schema name classes of which the document has no object with that id. */
function danglingIn(report: Report, schema: Schema): readonly string[] {
	const classes = new Map<string, string>();
	const objects: Readonly<Record<string, unknown>>[] = [];
	const walk = (value: unknown): void => {
		if (typeof value !== 'object' || value === null) return;
		if (!Array.isArray(value)) {
			const object = value as Readonly<Record<string, unknown>>;
			objects.push(object);
			if (typeof object['@id'] === 'string') {
				expect(classes.has(object['@id']), `two objects with id ${object['@id']}`).toBe(false);
				classes.set(object['@id'], String(object['@type']));
			}
		}
		Object.values(value).forEach(walk);
	};
	walk(report);
	return objects.flatMap((object) =>
		Object.entries(schema.definitions[String(object['@type'])]?.properties ?? {}).flatMap(
			([field, { refTypes, items }]) => {
				const named = refTypes ?? items?.refTypes;
				if (!named || object[field] === undefined) return [];
				const ids = [object[field]].flat() as string[];
				return ids.filter((id) => !named.includes(classes.get(id) ?? '')).map((id) => `${field}: ${id}`);
			}
		)
	);
}

/** A contest of ranks, which the demo county has none of. */
function rankedRecord(): Report {
	const first = contests[0]!;
	const ranked = { ...one, id: first.id, kind: 'ranked' as const, ranks: 3, voteFor: 1 };
	const election: Election = {
		...county,
		contests: county.contests.map((contest) => (contest.id === first.id ? ranked : contest))
	};
	const laid = layOut(election, layout.style, wordsOf(county.languages), ['en']);
	const prints = laid.pages.map(({ page }) => printPage(laid, page));
	const { choices } = laid.pages[0]!;
	const strokes = choices
		.filter(({ contest }) => contest === first.id)
		.slice(0, 1)
		.flatMap((choice) => placeMark('fill', choice, { tool: 'ballpoint', shape: laid.shape, side: laid.side }));
	const ballot = { ...open, election, layout: laid, prints };
	const image = inkPage(
		prints[0]!,
		{ page: 1, strokes },
		choices.map(({ target }) => target)
	);
	return castVoteRecord(readBallot(new Map([[1, image]]), ballot), ballot, 'ranked', NOW);
}
