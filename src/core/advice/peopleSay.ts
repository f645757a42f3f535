import type { ContestReading, Looks, PeopleOutcome } from '../reading/statement';
import { seesOtherwise } from './headline';
import type { Sentence } from './sentence';

/** The people's line of a note: when they look, and what they would decide if they do. */
export interface PeopleLine {
	readonly when: Sentence;
	/** Left out where people would not look and would come to the same. */
	readonly decide?: Sentence;
}

const WHEN: Readonly<Record<Looks, string>> = {
	always: 'always',
	'set-aside': 'setAside',
	'over-or-under': 'overOrUnder',
	never: 'never'
};

const DECIDE: Readonly<Record<PeopleOutcome, string>> = {
	vote: 'vote',
	'no-vote': 'noVote',
	undervote: 'undervote',
	overvote: 'overvote',
	blank: 'blank',
	refer: 'refer',
	silent: 'silent',
	'void-contest': 'voidContest',
	'void-ballot': 'voidBallot',
	duplicate: 'duplicate'
};

/** Keys of `reading.people.`: `when.…`, and `decide.…` or, where they would not look, `ifLooked.…`. */
export function peopleSay(reading: ContestReading): PeopleLine {
	const { looks, wouldLook, outcome, votes } = reading.people;
	const alike = looks === 'always' || looks === 'never';
	const when = { key: alike ? `when.${WHEN[looks]}` : `when.${WHEN[looks]}.${wouldLook ? 'yes' : 'no'}`, values: {} };
	const asksForLook = reading.advice.some(({ tone }) => tone === 'look');
	if (looks === 'never' || (!wouldLook && !asksForLook && !seesOtherwise(reading))) return { when };
	// Marks for two parties are a matter of the whole ballot, not of who looks at one contest.
	if (!wouldLook && outcome === 'void-contest' && reading.advice.some(({ key }) => key === 'crossover'))
		return { when, decide: { key: 'ifLooked.partyRule', values: {} } };
	// A list of names says what an undervote is; an empty one says that nothing was accepted.
	const reads = outcome === 'vote' || outcome === 'undervote';
	const key = !reads ? DECIDE[outcome] : votes.length > 0 ? 'vote' : outcome === 'vote' ? 'noVote' : 'undervote';
	return {
		when,
		decide: { key: `${wouldLook ? 'decide' : 'ifLooked'}.${key}`, values: key === 'vote' ? { choices: votes } : {} }
	};
}
