import type { Contest, CorrectionMethod, Election, Stage } from '../election/election';
import type { PageMarks } from '../marks/mark';
import type { Advice, ContestReading, MachineStatement, PeopleStatement } from '../reading/statement';
import { findSituations } from './findSituations';
import { REMEDIES, type Situation } from './situation';

/** Stages in which the voter still has the ballot in hand. */
const IN_HAND: readonly Stage[] = ['holding', 'polling-place'];

/**
 * The three statements on one contest: the machine's, the people's, and what the office asks, with the
 * steps for each stage. `machine` holds every contest seen, because a primary's rule looks across them.
 *
 * Keys of `advice`: a situation's id; `crossOut` and its kin are followed by the office's correction
 * method, because offices give opposite answers; `mailed` stands for all once the ballot is sent.
 * Pure. Throws a RangeError when the contest has no statement in `machine` or `people`.
 */
export function advise(
	contest: Contest,
	election: Election,
	pages: readonly PageMarks[],
	machine: ReadonlyMap<string, MachineStatement>,
	people: { readonly contests: ReadonlyMap<string, PeopleStatement> }
): ContestReading {
	const seen = machine.get(contest.id);
	const decided = people.contests.get(contest.id);
	if (!seen || !decided)
		throw new RangeError(
			`advise: expected a ${seen ? "people's" : "machine's"} statement on contest "${contest.id}", got none; read the contest first`
		);
	const situations = findSituations(contest, election, pages, machine);
	const marks = pages.flatMap((page) => page.marks.filter((mark) => mark.contest === contest.id));
	return {
		contest: contest.id,
		machine: seen,
		people: decided,
		advice: [...situations.flatMap((situation) => adviceOn(situation, election)), ...onceMailed(situations, election)],
		marks: marks.map(({ id }) => id),
		warned: { pollingPlace: isHandedBack(seen, machine, election), mail: false }
	};
}

/** Calm advice holds at every stage; what asks for more ink or a correction only while the ballot is in hand. */
function adviceOn(situation: Situation, election: Election): readonly Advice[] {
	const { tone, remedy } = toneOf(situation, election);
	const advice: Advice = {
		key: keyOf(situation, election),
		values: { ...(situation.choice === undefined ? {} : { choice: situation.choice }), ...situation.values },
		...(situation.marks.length > 0 ? { marks: situation.marks } : {}),
		...(situation.choice === undefined ? {} : { choice: situation.choice }),
		tone
	};
	if (tone === 'calm') return [advice];
	return IN_HAND.flatMap((stage) => {
		const steps = `instructions.correction.steps.${stage}`;
		if (situation.id === 'crossover')
			return [
				{ ...advice, stage, office: 'primaryRule.notice' },
				{ key: 'correct', values: {}, tone, stage, office: steps }
			];
		const office = remedy === 'fill' ? 'instructions.mark' : remedy === 'write' ? 'instructions.writeIn' : steps;
		return [{ ...advice, stage, office }];
	});
}

/** A clean cross-out is nothing to worry about, except where the office takes none or has not said. */
function toneOf({ id }: Situation, election: Election): (typeof REMEDIES)[Situation['id']] {
	const usual = REMEDIES[id];
	const { method } = election.instructions.correction;
	const isBarred = method === 'replacement-only' || method === 'undecided';
	return id === 'crossOutClean' && isBarred ? { ...usual, tone: 'look' } : usual;
}

const METHOD_KEYS: Readonly<Record<CorrectionMethod, string>> = {
	'replacement-only': 'replacementOnly',
	'cross-out-allowed': 'crossOutAllowed',
	'cross-out-preferred': 'crossOutPreferred',
	'cross-out-last-resort': 'crossOutLastResort',
	undecided: 'undecided'
};

function keyOf({ id }: Situation, { instructions, target }: Election): string {
	if (id === 'crossOut' || id === 'crossOutClean') return `${id}.${METHOD_KEYS[instructions.correction.method]}`;
	if (id === 'wrongSide') return `${id}.${target.side}`;
	return id;
}

function onceMailed(situations: readonly Situation[], election: Election): readonly Advice[] {
	if (situations.every((situation) => toneOf(situation, election).tone === 'calm')) return [];
	return [{ key: 'mailed', values: {}, office: 'instructions.correction.steps.mailed', stage: 'mailed', tone: 'look' }];
}

/**
 * Whether a scanner at a polling place would hand the ballot back over this contest. It knows too many
 * marks, and a ballot on which it finds nothing at all; one blank contest among others it takes.
 */
function isHandedBack(
	{ state }: MachineStatement,
	machine: ReadonlyMap<string, MachineStatement>,
	{ instructions }: Election
): boolean {
	const { overvote, blank } = instructions.pollingPlaceWarns;
	if (state === 'overvote') return overvote;
	return state === 'blank' && blank && [...machine.values()].every((one) => one.state === 'blank');
}
