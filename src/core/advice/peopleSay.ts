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

/** Keys of `reading.people.`: `when.…` and `decide.…`. */
export function peopleSay(reading: ContestReading): PeopleLine {
	const { looks, wouldLook, outcome, votes } = reading.people;
	const alike = looks === 'always' || looks === 'never';
	const when = { key: alike ? `when.${WHEN[looks]}` : `when.${WHEN[looks]}.${wouldLook ? 'yes' : 'no'}`, values: {} };
	const asksForLook = reading.advice.some(({ tone }) => tone === 'look');
	if (looks === 'never' || (!wouldLook && !asksForLook && !seesOtherwise(reading))) return { when };
	if (votes.length > 0) {
		const key = outcome === 'vote' || outcome === 'undervote' ? 'vote' : DECIDE[outcome];
		return { when, decide: { key: `decide.${key}`, values: key === 'vote' ? { choices: votes } : {} } };
	}
	return { when, decide: { key: `decide.${outcome === 'vote' ? 'noVote' : DECIDE[outcome]}`, values: {} } };
}
