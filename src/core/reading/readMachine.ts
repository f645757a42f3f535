import type { Contest } from '../election/election';
import type { PageMarks, TargetReading } from '../marks/mark';
import type { MachineState, MachineStatement } from './statement';

/**
 * What a machine would likely see in one contest, from the levels of its targets alone: a machine sees
 * no ring around a name and no written word.
 */
export function readMachine(contest: Contest, pages: readonly PageMarks[]): MachineStatement {
	const targets = pages.flatMap((page) => page.targets.filter((target) => target.contest === contest.id));
	return contest.kind === 'ranked' ? readRanked(targets) : readChoices(targets, contest.voteFor);
}

function readChoices(targets: readonly TargetReading[], voteFor: number): MachineStatement {
	const dark = targets.filter((target) => target.level === 'dark');
	const unsure = targets.filter((target) => target.level === 'unsure');
	const state = stateOf(dark.length, unsure.length, voteFor);
	return { state, votes: state === 'overvote' ? [] : dark.map((target) => target.choice), targets };
}

/** An unsure target decides the contest unless there are already more dark ones than allowed. */
function stateOf(dark: number, unsure: number, voteFor: number): MachineState {
	if (dark > voteFor) return 'overvote';
	if (unsure > 0) return 'unsure';
	if (dark === 0) return 'blank';
	return dark === voteFor ? 'read' : 'undervote';
}

/** Votes in the order of rank. Two choices at one rank are an overvote of that rank. */
function readRanked(targets: readonly TargetReading[]): MachineStatement {
	const dark = targets.filter((target) => target.level === 'dark');
	const unsure = targets.some((target) => target.level === 'unsure');
	const ranks = [...new Set(targets.map((target) => target.rank ?? 1))].sort((a, b) => a - b);
	const byRank = ranks.map((rank) => dark.filter((target) => (target.rank ?? 1) === rank));
	const overvoted = byRank.some((found) => found.length > 1);
	const votes = overvoted ? [] : byRank.flat().map((target) => target.choice);
	const full = byRank.every((found) => found.length === 1);
	const state: MachineState = overvoted
		? 'overvote'
		: unsure
			? 'unsure'
			: dark.length === 0
				? 'blank'
				: full
					? 'read'
					: 'undervote';
	return { state, votes: [...new Set(votes)], targets };
}
