import { dateOf, endOf, hasPassed, type OfficeDate } from '../election/dates';
import type { DateId, Election, Stage } from '../election/election';
import type { Advice } from '../reading/statement';

/** What is over, and when it ended. */
export interface TooLate {
	/** `voting`: no ballot is taken any more. `newBallot`: the only way the office has to put a mistake right. */
	readonly ended: 'voting' | 'newBallot';
	readonly date: OfficeDate;
}

const NEW_BALLOT: readonly DateId[] = ['replacement.mail', 'replacement.in-person'];

/**
 * Whether it is too late at the instant `nowUtcMs` (milliseconds since 1970 in UTC) for what is advised on a ballot that
 * is still in hand, by the office's clock; undefined where it is not. A polling place gives out new ballots for as
 * long as it is open; elsewhere every way to a new ballot has its own end, and the last of them decides.
 */
export function tooLate(
	advice: readonly Advice[],
	election: Election,
	stage: Stage,
	nowUtcMs: number
): TooLate | undefined {
	const pressing = advice.filter((one) => one.tone === 'look' && one.stage === stage);
	if (stage === 'mailed' || pressing.length === 0) return undefined;
	const end = dateOf(election, 'return');
	if (end && hasPassed(election, 'return', nowUtcMs) === true) return { ended: 'voting', date: end };
	const asksForNew = pressing.some(({ office }) => office === `instructions.correction.steps.${stage}`);
	if (stage !== 'holding' || !asksForNew || election.instructions.correction.method !== 'replacement-only')
		return undefined;
	const ways = NEW_BALLOT.filter((id) => dateOf(election, id) !== undefined);
	const last = [...ways].sort((a, b) => (endOf(election, a) ?? 0) - (endOf(election, b) ?? 0)).at(-1);
	const date = last && hasPassed(election, last, nowUtcMs) === true ? dateOf(election, last) : undefined;
	return date && { ended: 'newBallot', date };
}
