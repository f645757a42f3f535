import { ballotOf, type Ballot } from '../election/ballot';
import type { BallotReading, OpenBallot } from '../read';
import type { ContestReading } from '../reading/statement';
import { idOf, type RecordedContest, type Report, type Snapshot } from './cvr';
import { recordMachine, recordMeasured, recordPeople } from './recordContest';
import { recordElection, recordParties, recordUnits } from './recordElection';

const DEVICE = 'reader';

const NOTES =
	'Practice only: no ballot, no vote, no record of an election. Snapshot types are used as section 3.3 of NIST SP 1500-103 says: ' +
	'interpreted after the rules of a contest, modified after people have looked.';

/** The formula stands in the app; another one gets another number, so that old records stay comparable. */
const METRIC =
	'fairhand-target-1: [0] score, 0 to 1, made of fill and darkness and scaled to the size of the target; ' +
	'[1] fill, share of the inside that is ink; [2] darkness of that ink against the paper around it, 0 to 1';

/**
 * A practice reading as a Cast Vote Record report of NIST SP 1500-103, version 1.0: one record with what was measured,
 * what a machine would take, and what people would decide where they would look. The current snapshot is the machine's,
 * because no person has looked. Pages that were not seen are left out. `sheet` names the record; `generated` is a time in
 * ISO 8601 with its zone. Write-ins are located, never read, so they carry no text.
 */
export function castVoteRecord(reading: BallotReading, open: OpenBallot, sheet: string, generated: string): Report {
	const { election, layout } = open;
	const ballot = ballotOf(election, layout.style);
	const language = layout.languages[0] ?? election.languages[0] ?? 'en';
	const [precinct, ...others] = ballot.style.precincts;
	return {
		'@type': 'CVR.CastVoteRecordReport',
		Version: '1.0.0',
		GeneratedDate: generated,
		ReportType: ['other'],
		OtherReportType: 'practice-reading',
		Notes: NOTES,
		ReportGeneratingDeviceIds: [DEVICE],
		ReportingDevice: [
			{ '@type': 'CVR.ReportingDevice', '@id': DEVICE, Application: 'Fairhand ballot practice', MarkMetricType: METRIC }
		],
		GpUnit: recordUnits(election, ballot, language),
		...(election.parties.length > 0 ? { Party: recordParties(election, language) } : {}),
		Election: [recordElection(election, ballot, language)],
		CVR: [
			{
				'@type': 'CVR.CVR',
				ElectionId: idOf.election(election.id),
				UniqueId: sheet,
				BallotStyleId: layout.style,
				...(precinct !== undefined && others.length === 0 ? { BallotStyleUnitId: idOf.precinct(precinct) } : {}),
				CreatingDeviceId: DEVICE,
				CurrentSnapshotId: idOf.snapshot('interpreted'),
				CVRSnapshot: snapshots(reading, open, ballot)
			}
		]
	};
}

function snapshots(
	{ pages, contests, ballot }: BallotReading,
	{ election, layout, rulebook }: OpenBallot,
	printed: Ballot
): Snapshot[] {
	const marks = pages.flatMap((page) => page.marks);
	const readings = new Map(contests.map((reading) => [reading.contest, reading]));
	const each = printed.contests.flatMap((contest) => {
		const reading = readings.get(contest.id);
		return reading ? [{ contest, reading }] : [];
	});
	const machine = each.map(({ contest, reading }) => recordMachine(contest, reading, marks));
	const isVoid = ballot.outcome === 'void-ballot';
	const people = each.map(({ contest, reading }, i) => {
		const decided = isVoid || reading.people.wouldLook ? recordPeople(contest, reading, marks, isVoid) : undefined;
		return decided ?? (machine[i] as RecordedContest);
	});
	const open = contests.filter((reading) => reading.people.wouldLook && isOpen(reading));
	const seen = pages.map(({ page }) => page).join(', ');
	const { dark, empty } = election.thresholds;
	return [
		snapshot(
			'original',
			each.map(({ contest, reading }) => recordMeasured(contest, reading, marks)),
			false,
			[`Pages seen: ${seen} of ${layout.pages.length}.`]
		),
		snapshot('interpreted', machine, machine.some(needsAdjudication), [
			`Thresholds of the office: a mark from a score of ${dark}, none under ${empty}, unsure between.`
		]),
		snapshot('modified', people, open.length > 0 || ballot.outcome === 'refer' || ballot.outcome === 'silent', [
			`No person looked at this practice sheet. What people would decide under rulebook ${rulebook.id}:`,
			...contests.map(decision),
			...(ballot.outcome === 'none' ? [] : [`ballot: ${ballot.outcome}${cited(ballot.clauses)}`])
		])
	];
}

function snapshot(
	type: Snapshot['Type'],
	contests: readonly RecordedContest[],
	isForPeople: boolean,
	message: readonly string[]
): Snapshot {
	return {
		'@type': 'CVR.CVRSnapshot',
		'@id': idOf.snapshot(type),
		Type: type,
		...(isForPeople ? { Status: ['needs-adjudication'] } : {}),
		Annotation: [{ '@type': 'CVR.Annotation', Message: message }],
		CVRContest: contests
	};
}

function decision({ contest, people }: ContestReading): string {
	const looks = people.wouldLook ? people.outcome : 'they would not look';
	return `${contest}: ${looks}${people.wouldLook ? cited(people.clauses) : ''}`;
}

const cited = (clauses: readonly { readonly cite: string }[]): string =>
	clauses.length === 0 ? '' : ` (${[...new Set(clauses.map(({ cite }) => cite))].join('; ')})`;

const isOpen = ({ people: { outcome } }: ContestReading): boolean =>
	outcome === 'refer' || outcome === 'silent' || outcome === 'duplicate';

const needsAdjudication = ({ CVRContestSelection = [] }: RecordedContest): boolean =>
	CVRContestSelection.some(({ Status = [] }) => Status.includes('needs-adjudication'));
