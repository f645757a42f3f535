import { ballotOf } from '../election/ballot';
import type { Choice, Contest, ContestKind, Election, TargetShape } from '../election/election';
import type { Layout } from '../layout/layout';
import type { Mark, PageMarks, TargetLevel, TargetReading } from '../marks/mark';
import type { MachineStatement } from '../reading/statement';
import { takesInBoth } from './betweenTargets';
import { encodeMark, isPossibleVote, targetKey, type MarkFact } from './markFacts';
import { INKED_BIT } from './needs';
import type { Channel, Count } from './rule';
import { techniquesOf, type TechniqueFacts } from './techniqueFacts';
import type { Saying } from './vocabulary';

/** What a person has said about the ballot. All of it may be left out; nothing of it is ever recognised. */
export interface Told {
	/** By mark id: what a piece of handwriting is; for `printed-name` also whose name. */
	readonly words?: ReadonlyMap<string, { readonly says: Saying; readonly choice?: string }>;
	/** The sheet is torn, crumpled or soiled. */
	readonly damaged?: boolean;
	readonly channel?: Channel;
	readonly count?: Count;
}

/** One choice; on a ranked contest one cell, a choice at a rank. */
export interface ChoiceFacts {
	readonly id: string;
	readonly kind: Choice['kind'];
	readonly answer?: 'yes' | 'no';
	readonly party?: string;
	readonly rank?: number;
	readonly marks: readonly MarkFact[];
	readonly level: TargetLevel;
	/** 0 to 1 */
	readonly fill: number;
	/** Marks of other choices that cross this one out as well. */
	readonly strikes: readonly MarkFact[];
	/** Every kind that a mark here, or a line through from elsewhere, may be, and every place, as bits; see `INKED_BIT`. */
	readonly kindBits: number;
	readonly placeBits: number;
	/** Whether anything here might be a vote; where not, a rulebook's silence about it is of no matter. */
	readonly possible: boolean;
}

export interface ContestFacts {
	readonly id: string;
	readonly kind: ContestKind;
	readonly voteFor: number;
	readonly party?: string;
	readonly choices: readonly ChoiceFacts[];
	/** Marks of the contest at no choice: its heading. */
	readonly loose: readonly MarkFact[];
	readonly machine: MachineStatement;
	/** Whether any choice holds a mark or ink in its target. */
	readonly inked: boolean;
	readonly techniques: TechniqueFacts;
}

/** All that clauses may ask about one ballot. Made without any rulebook, so one set of facts serves them all. */
export interface BallotFacts {
	readonly contests: readonly ContestFacts[];
	/** Every mark of the pages seen. */
	readonly marks: readonly MarkFact[];
	readonly pagesMissing: readonly number[];
	/** Whether a page that was not seen holds contests of a party. */
	readonly partyUnseen: boolean;
	readonly shape: TargetShape;
	readonly told: Told;
}

/**
 * The facts of one ballot: its contests on the pages seen, in ballot order, with their marks, targets
 * and machine statements. A contest without a machine statement was not seen. Pure; throws a RangeError
 * for a ballot style that the election does not have.
 */
export function gatherFacts(
	election: Election,
	layout: Layout,
	pages: readonly PageMarks[],
	machine: ReadonlyMap<string, MachineStatement>,
	told: Told = {}
): BallotFacts {
	const { contests } = ballotOf(election, layout.style);
	const seenPages = new Set(pages.map(({ page }) => page));
	const seen = contests.filter(({ id }) => machine.has(id));
	const found = pages.flatMap((page) => page.marks.map((mark) => takesInBoth(mark, layout)));
	const byContest = groupBy(found, ({ contest }) => contest);
	const inked = new Set(
		pages.flatMap(({ targets }) =>
			targets.filter(({ fill }) => fill > 0).map(({ contest, choice }) => targetKey(contest, choice))
		)
	);
	return {
		contests: seen.map((contest) => contestFacts(contest, byContest.get(contest.id) ?? [], machine, told, inked)),
		marks: found.map((mark) => encodeMark(mark, told, inked, false)),
		pagesMissing: layout.pages.map(({ page }) => page).filter((page) => !seenPages.has(page)),
		partyUnseen: contests.some(({ id, party }) => party !== undefined && !machine.has(id)),
		shape: layout.shape,
		told
	};
}

function contestFacts(
	contest: Contest,
	marks: readonly Mark[],
	machine: ReadonlyMap<string, MachineStatement>,
	told: Told,
	inked: ReadonlySet<string>
): ContestFacts {
	const statement = machine.get(contest.id);
	if (!statement) throw new RangeError(`contestFacts: expected a machine statement on "${contest.id}", got none`);
	const cells = cellsOf(contest, statement.targets);
	const byChoice = groupBy(marks, ({ choice }) => choice);
	const possible = new Set(cells.filter((cell) => mayBeVote(cell, byChoice)).map(({ choice }) => choice.id));
	// A name on a line is taken for somebody new while there are not too many marks: only then does it decide.
	const roomy = contest.kind === 'ranked' || possible.size <= contest.voteFor;
	const strikes = marks.filter(({ kind, alsoTouches }) => kind === 'strike' && alsoTouches !== undefined);
	const choices = cells.map((cell) =>
		isBlank(cell, byChoice, strikes)
			? blankFacts(cell.choice)
			: choiceFacts(cell, byChoice, strikes, told, inked, roomy)
	);
	return {
		id: contest.id,
		kind: contest.kind,
		voteFor: contest.voteFor,
		...(contest.party === undefined ? {} : { party: contest.party }),
		choices,
		loose: (byChoice.get(undefined) ?? []).map((mark) => encodeMark(mark, told, inked, false)),
		machine: statement,
		inked: choices.some(({ marks, strikes, level }) => marks.length + strikes.length > 0 || level !== 'empty'),
		techniques: techniquesOf(choices)
	};
}

function choiceFacts(
	cell: Cell,
	byChoice: MarksByChoice,
	allStrikes: readonly Mark[],
	told: Told,
	inked: ReadonlySet<string>,
	roomy: boolean
): ChoiceFacts {
	const { choice, rank, target } = cell;
	const marks = marksOf(cell, byChoice).map((mark) => encodeMark(mark, told, inked, roomy));
	const strikes = allStrikes
		.filter(({ alsoTouches }) => alsoTouches?.includes(choice.id))
		.map((mark) => encodeMark(mark, told, inked, false));
	const level = target?.level ?? 'empty';
	const fill = target?.fill ?? 0;
	return {
		id: choice.id,
		kind: choice.kind,
		...(choice.answer === undefined ? {} : { answer: choice.answer }),
		...(choice.party === undefined ? {} : { party: choice.party }),
		...(rank === undefined ? {} : { rank }),
		marks,
		level,
		fill,
		strikes,
		...bitsOf([...marks, ...strikes], level !== 'empty' || fill > 0),
		possible: mayBeVote(cell, byChoice)
	};
}

/** Nothing is on most choices of a ballot; they need not be looked at one by one after each mark. */
function isBlank({ choice, rank, target }: Cell, byChoice: MarksByChoice, strikes: readonly Mark[]): boolean {
	return (
		rank === undefined &&
		strikes.length === 0 &&
		(target === undefined || (target.level === 'empty' && target.fill === 0)) &&
		!byChoice.has(choice.id)
	);
}

const blanks = new WeakMap<Choice, ChoiceFacts>();

/** The facts of a choice with nothing on it, which are always the same. */
function blankFacts(choice: Choice): ChoiceFacts {
	const known = blanks.get(choice);
	if (known) return known;
	const facts = choiceFacts({ choice, target: undefined }, new Map(), [], {}, new Set(), false);
	blanks.set(choice, facts);
	return facts;
}

/** A mark of which the reader is not sure may be of any kind. */
function bitsOf(marks: readonly MarkFact[], isInked: boolean): Pick<ChoiceFacts, 'kindBits' | 'placeBits'> {
	const inked = isInked ? INKED_BIT : 0;
	return {
		kindBits: marks.reduce((bits, { sure, kindBit }) => bits | (sure ? kindBit : ~INKED_BIT), inked),
		placeBits: marks.reduce((bits, { placeBit }) => bits | placeBit, inked)
	};
}

interface Cell {
	readonly choice: Choice;
	readonly rank?: number;
	readonly target: TargetReading | undefined;
}

function cellsOf(contest: Contest, targets: readonly TargetReading[]): readonly Cell[] {
	const byChoice = groupBy(targets, ({ choice }) => choice);
	return contest.choices.flatMap((choice): readonly Cell[] => {
		const own = byChoice.get(choice.id) ?? [];
		if (contest.kind !== 'ranked') return [{ choice, target: own[0] }];
		return own.map((target) => ({ choice, target, ...(target.rank === undefined ? {} : { rank: target.rank }) }));
	});
}

type MarksByChoice = ReadonlyMap<string | undefined, readonly Mark[]>;

/** On a ranked contest a mark belongs to the cell of its rank; one without a rank to none. */
const marksOf = ({ choice, rank }: Cell, byChoice: MarksByChoice): readonly Mark[] => {
	const own = byChoice.get(choice.id) ?? [];
	return rank === undefined ? own : own.filter((mark) => mark.rank === rank);
};

/** A target with ink in it, or a mark of a kind with which people choose. */
const mayBeVote = (cell: Cell, byChoice: MarksByChoice): boolean =>
	(cell.target !== undefined && cell.target.level !== 'empty') || marksOf(cell, byChoice).some(isPossibleVote);

function groupBy<T, K>(list: readonly T[], keyOf: (one: T) => K): ReadonlyMap<K, readonly T[]> {
	const groups = new Map<K, T[]>();
	for (const one of list) {
		const group = groups.get(keyOf(one));
		if (group) group.push(one);
		else groups.set(keyOf(one), [one]);
	}
	return groups;
}
