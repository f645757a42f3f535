import type { CompiledClause } from './compile';
import type { ChoiceFacts, ContestFacts } from './facts';
import type { CellResult, Place } from './place';
import { NO, UNSURE, YES } from './truth';
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
		return contest.choices.map((cell) => ({ cell, result: 'none', clauses: [], weighed: NOTHING_MET }));
	return contest.choices.map((cell) => {
		const weighed = weigh(clauses, at, cell);
		if (weighed === NOTHING_MET) return { cell, result: 'none', clauses: [], weighed };
		return { cell, weighed, ...settle(clauses, weighed, cell) };
	});
}

function settle(
	clauses: readonly CompiledClause[],
	{ active }: Weighed,
	cell: ChoiceFacts
): Pick<CellDecision, 'result' | 'clauses'> {
	const sure = clauses.filter((_, i) => active[i] === YES);
	const results = new Set(sure.map(({ result }) => result));
	const open = clauses.filter(({ result }, i) => active[i] === UNSURE && !results.has(result));
	const [result] = results;
	// Where nothing stands at a choice, a clause that might take its vote away has nothing to take.
	const matters = cell.possible || sure.length > 0 || open.some((clause) => clause.result !== 'no-vote');
	if (result === undefined && (open.length === 0 || !matters)) return { result: 'none', clauses: [] };
	if (results.size === 1 && open.length === 0 && result !== undefined && result !== 'refer')
		return { result: result as CellResult, clauses: sure };
	return { result: 'open', clauses: clauses.filter((_, i) => active[i] !== NO) };
}
