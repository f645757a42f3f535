import type { CompiledClause } from './compile';
import type { ChoiceFacts, ContestFacts } from './facts';
import type { CellResult, Place } from './place';
import { NO, YES } from './truth';
import { NOTHING_MET, weigh, type Weighed } from './weigh';

/** What the rulebook makes of one choice, or of one cell of a ranked contest. */
export interface CellDecision {
	readonly cell: ChoiceFacts;
	readonly result: CellResult;
	/** The clauses that decided it; all that disagree or are not settled where it is `open`. */
	readonly clauses: readonly CompiledClause[];
	readonly weighed: Weighed;
}

/** Every choice of a contest by the choice clauses. In a contest without ink there is nothing to decide. */
export function decideChoices(
	clauses: readonly CompiledClause[],
	contest: ContestFacts,
	at: Place
): readonly CellDecision[] {
	if (!contest.inked)
		return contest.choices.map((cell) => ({
			cell,
			result: 'none',
			clauses: NOTHING_SAID.clauses,
			weighed: NOTHING_MET
		}));
	return contest.choices.map((cell) => {
		const weighed = weigh(clauses, at, cell);
		if (weighed === NOTHING_MET) return { cell, result: 'none', clauses: NOTHING_SAID.clauses, weighed };
		const { result, clauses: deciding } = settle(clauses, weighed, cell);
		return { cell, result, clauses: deciding, weighed };
	});
}

function settle(
	clauses: readonly CompiledClause[],
	{ active }: Weighed,
	cell: ChoiceFacts
): Pick<CellDecision, 'result' | 'clauses'> {
	let sure: string | undefined;
	let agreed = true;
	let givesVote = false;
	let first: CompiledClause | undefined;
	let count = 0;
	for (let i = 0; i < clauses.length; i++) {
		const clause = clauses[i];
		const applies = active[i] ?? NO;
		if (!clause || applies === NO) continue;
		first ??= clause;
		count++;
		givesVote ||= clause.result !== 'no-vote';
		if (applies !== YES) continue;
		agreed &&= sure === undefined || sure === clause.result;
		sure ??= clause.result;
	}
	// Where nothing stands at a choice, a clause that might take its vote away has nothing to take.
	const matters = cell.possible || sure !== undefined || givesVote;
	if (!first || !matters) return NOTHING_SAID;
	const held = count === 1 ? first.alone : clauses.filter((_, i) => active[i] !== NO);
	if (sure === undefined || sure === 'refer' || !agreed || held.some(({ result }) => result !== sure))
		return { result: 'open', clauses: held };
	const applying = count === 1 ? held : clauses.filter((_, i) => active[i] === YES);
	return { result: sure as CellResult, clauses: applying };
}

const NOTHING_SAID: Pick<CellDecision, 'result' | 'clauses'> = { result: 'none', clauses: [] };
