import type { Contest } from '../election/election';
import type { Mark, TargetReading } from '../marks/mark';
import type { ContestReading } from '../reading/statement';
import { idOf, type ContestSelection, type Indication, type RecordedContest, type SelectionPosition } from './cvr';

/** What is on the paper for one choice: its targets (one for each rank) and whether something is written on its line. */
interface Measured {
	readonly choice: string;
	/** Its place on this ballot, from 1. */
	readonly place: number;
	readonly targets: readonly TargetReading[];
	readonly isWriteIn: boolean;
	readonly isWritten: boolean;
}

/** What is said of one choice beyond what was measured. */
interface Said {
	/** Instead of what the target shows. */
	readonly indication?: Indication;
	readonly allocable?: Indication;
	readonly votes: number;
	readonly status?: 'invalidated-rules' | 'needs-adjudication';
}

const INDICATIONS: Readonly<Record<TargetReading['level'], Indication>> = {
	dark: 'yes',
	unsure: 'unknown',
	empty: 'no'
};

/** As measured: every choice with ink in its target or on its line, and no rule. */
export function recordMeasured(contest: Contest, reading: ContestReading, marks: readonly Mark[]): RecordedContest {
	const found = measured(contest, reading, marks).filter(hasInk);
	return {
		...head(contest),
		...selections(found.map((one) => selection(contest, one))),
		...(found.some(isIndicated) ? {} : { Status: ['not-indicated'] })
	};
}

/** After the contest's own rules: what a machine would take, more marks than allowed taken for none. */
export function recordMachine(contest: Contest, reading: ContestReading, marks: readonly Mark[]): RecordedContest {
	const found = measured(contest, reading, marks).filter(hasInk);
	const isOvervoted = reading.machine.state === 'overvote';
	const said = found.map((one): Said => {
		const votes = !isOvervoted && reading.machine.votes.includes(one.choice) ? 1 : 0;
		const isMarked = one.targets.some(({ level }) => level === 'dark');
		if (isMarked && isOvervoted) return LOST;
		if (one.isWritten || (one.isWriteIn && isMarked))
			return { allocable: isOvervoted ? 'no' : 'unknown', votes, status: 'needs-adjudication' };
		if (isMarked) return { allocable: 'yes', votes };
		return { votes, ...(one.targets.some(({ level }) => level === 'unsure') ? { status: 'needs-adjudication' } : {}) };
	});
	return told(contest, found, said, isOvervoted);
}

/**
 * What people would decide under the rulebook, where they would look. Undefined where that is for a person to say: the
 * rulebook is silent, its clauses conflict, or something must be read. `isVoid`: a rule voids the whole sheet. Nothing is
 * called adjudicated, because nobody has looked.
 */
export function recordPeople(
	contest: Contest,
	reading: ContestReading,
	marks: readonly Mark[],
	isVoid: boolean
): RecordedContest | undefined {
	const outcome = isVoid ? 'void-ballot' : reading.people.outcome;
	const votes = isVoid ? [] : reading.people.votes;
	if (outcome === 'refer' || outcome === 'silent' || outcome === 'duplicate') return undefined;
	const found = measured(contest, reading, marks).filter((one) => hasInk(one) || votes.includes(one.choice));
	const isOvervoted = outcome === 'overvote';
	const isTakenAway = isOvervoted || outcome === 'void-contest' || outcome === 'void-ballot';
	const said = found.map((one): Said => {
		if (isTakenAway && isIndicated(one)) return LOST;
		if (!votes.includes(one.choice)) return { indication: 'no', allocable: 'no', votes: 0 };
		return { indication: 'yes', allocable: 'yes', votes: 1 };
	});
	const record = told(contest, found, said, isOvervoted);
	if (!isTakenAway || isOvervoted) return record;
	return { ...record, Status: [...(record.Status ?? []), 'invalidated-rules'] };
}

const LOST: Said = { allocable: 'no', votes: 0, status: 'invalidated-rules' };

function told(
	contest: Contest,
	found: readonly Measured[],
	said: readonly Said[],
	isOvervoted: boolean
): RecordedContest {
	const status: NonNullable<RecordedContest['Status']>[number][] = [];
	const given = said.reduce((sum, { votes }) => sum + votes, 0);
	const isIndicatedAtAll = found.some((one, i) => said[i]?.indication !== 'no' && isIndicated(one)) || given > 0;
	if (!isIndicatedAtAll) status.push('not-indicated');
	if (isOvervoted) status.push('overvoted', 'invalidated-rules');
	else if (given < contest.voteFor && contest.kind !== 'ranked') status.push('undervoted');
	const writeIns = found.filter((one, i) => one.isWriteIn && said[i]?.indication !== 'no' && isIndicated(one));
	return {
		...head(contest),
		// Each rank of a ranked contest is a vote of its own; the standard's sums do not speak of them.
		...(contest.kind === 'ranked'
			? {}
			: {
					Overvotes: isOvervoted ? contest.voteFor : 0,
					Undervotes: isOvervoted ? 0 : contest.voteFor - given,
					WriteIns: writeIns.length
				}),
		...selections(found.map((one, i) => selection(contest, one, said[i]))),
		...(status.length > 0 ? { Status: status } : {})
	};
}

function selection(contest: Contest, one: Measured, said?: Said): ContestSelection {
	return {
		'@type': 'CVR.CVRContestSelection',
		ContestSelectionId: idOf.selection(contest.id, one.choice),
		OptionPosition: one.place,
		SelectionPosition: one.targets.map((target, i) => position(one, target, i + 1, said)),
		...(said && contest.kind !== 'ranked' ? { TotalNumberVotes: said.votes } : {}),
		...(said?.status ? { Status: [said.status] } : {})
	};
}

function position(one: Measured, target: TargetReading, number: number, said?: Said): SelectionPosition {
	const { score, fill, darkness, level, rank } = target;
	// A choice has one voice; on a ranked contest only the ranks that are marked have one.
	const speaks = rank === undefined || level !== 'empty';
	return {
		'@type': 'CVR.SelectionPosition',
		HasIndication: (speaks ? said?.indication : undefined) ?? INDICATIONS[level],
		NumberVotes: 1,
		Position: number,
		...(rank === undefined ? {} : { Rank: rank }),
		...(speaks && said?.allocable ? { IsAllocable: said.allocable } : {}),
		MarkMetricValue: [score, fill, darkness].map((share) => share.toFixed(4)),
		...(said?.status === 'invalidated-rules' ? { Status: ['invalidated-rules'] } : {}),
		...(one.isWritten && number === 1 ? { CVRWriteIn: { '@type': 'CVR.CVRWriteIn' } } : {})
	};
}

function measured(contest: Contest, reading: ContestReading, marks: readonly Mark[]): readonly Measured[] {
	const written = new Set(
		marks
			.filter(({ id, kind, place }) => reading.marks.includes(id) && kind === 'writing' && place === 'write-in')
			.map(({ choice }) => choice)
	);
	return contest.choices.map(({ id, kind }, index) => ({
		choice: id,
		place: index + 1,
		targets: reading.machine.targets.filter(({ choice }) => choice === id),
		isWriteIn: kind === 'write-in',
		isWritten: written.has(id)
	}));
}

const head = (contest: Contest) => ({
	'@type': 'CVR.CVRContest' as const,
	ContestId: idOf.contest(contest.id),
	Selections: contest.choices.length
});

const selections = (all: readonly ContestSelection[]) => (all.length > 0 ? { CVRContestSelection: all } : {});

const isIndicated = ({ targets, isWritten }: Measured): boolean =>
	isWritten || targets.some(({ level }) => level !== 'empty');

const hasInk = (one: Measured): boolean => isIndicated(one) || one.targets.some(({ fill }) => fill > 0);
