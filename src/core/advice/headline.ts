import type { Contest } from '../election/election';
import type { ContestReading } from '../reading/statement';
import type { Sentence } from './sentence';

/** The heading of a contest's note: a key of `reading.headline.`, and whether it asks for a second look. */
export interface Headline extends Sentence {
	readonly tone: 'calm' | 'look';
}

/** What would happen to this contest, in one line: the most pressing thing where there is one. */
export function headline(reading: ContestReading, contest: Contest): Headline {
	const { machine, people, advice } = reading;
	const pressing = advice.find(({ tone, stage }) => tone === 'look' && stage !== 'mailed');
	if (pressing) return { key: pressing.key.split('.')[0] ?? pressing.key, values: pressing.values, tone: 'look' };
	if (people.wouldLook && seesOtherwise(reading)) return { key: 'peopleDiffer', values: {}, tone: 'look' };
	const choices = machine.votes;
	// What lies at no choice, such as a speck or the edge of a printed line, is not the voter's mark for one.
	const isAtChoice = advice.some(({ choice }) => choice !== undefined);
	if (machine.state === 'blank' || choices.length === 0)
		return { key: isAtChoice ? 'noneRead' : 'nothingFound', values: {}, tone: 'calm' };
	const open = contest.voteFor - choices.length;
	if (machine.state === 'undervote' && open > 0)
		return { key: 'likelyReadSome', values: { choices, count: open }, tone: 'calm' };
	return { key: 'likelyRead', values: { choices }, tone: 'calm' };
}

/** Whether people would come to something else than what a machine sees. */
export function seesOtherwise({ machine, people }: Pick<ContestReading, 'machine' | 'people'>): boolean {
	if (machine.votes.length === 0 && people.votes.length === 0)
		return !['blank', 'undervote', 'overvote', 'no-vote', 'vote', 'silent'].includes(people.outcome);
	const same =
		machine.votes.length === people.votes.length && machine.votes.every((choice) => people.votes.includes(choice));
	return !same || (people.outcome !== 'vote' && people.outcome !== 'undervote');
}
