import { ballotOf } from '$core/election/ballot';
import type { Election } from '$core/election/election';
import type { Layout } from '$core/layout/layout';
import type { PageMarks } from '$core/marks/mark';
import { readMachine } from '$core/reading/readMachine';
import type { MachineStatement } from '$core/reading/statement';
import { gatherFacts, type BallotFacts, type Told } from '$core/rules/facts';

/** One sheet as rulebooks are asked about it, and what a machine would likely see in each contest. */
export interface SheetFacts {
	readonly facts: BallotFacts;
	readonly machine: ReadonlyMap<string, MachineStatement>;
}

/** From what was found on a sheet of one page to facts: the same for every rulebook. */
export function factsOf(election: Election, layout: Layout, found: PageMarks, told: Told): SheetFacts {
	const { contests } = ballotOf(election, layout.style);
	const machine = new Map(contests.map((contest) => [contest.id, readMachine(contest, [found])]));
	return { machine, facts: gatherFacts(election, layout, [found], machine, told) };
}
