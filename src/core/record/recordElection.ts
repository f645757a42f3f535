import type { Ballot } from '../election/ballot';
import type { Choice, Contest, Election, Text } from '../election/election';
import { idOf, type Typed } from './cvr';

/** Id of the area that the whole election is for. */
const SCOPE = 'scope';

/** The area of the election and the precincts that get this ballot. */
export function recordUnits({ office, precincts }: Election, { style }: Ballot, language: string): readonly Typed[] {
	const own = precincts.filter(({ id }) => style.precincts.includes(id));
	return [
		{
			'@type': 'CVR.GpUnit',
			'@id': SCOPE,
			Type: 'other',
			OtherType: 'election-office',
			Name: say(office.name, language)
		},
		...own.map(({ id, name }) => ({
			'@type': 'CVR.GpUnit',
			'@id': idOf.precinct(id),
			Type: 'precinct',
			Name: say(name, language)
		}))
	];
}

/** All parties of the election. */
export function recordParties({ parties }: Election, language: string): readonly Typed[] {
	return parties.map(({ id, name }) => ({ '@type': 'CVR.Party', '@id': idOf.party(id), Name: say(name, language) }));
}

/** The election with the contests of this ballot, their choices in the order of this ballot. */
export function recordElection(election: Election, { contests }: Ballot, language: string): Typed {
	const named = contests.flatMap((contest) =>
		contest.choices.filter((choice) => isPerson(contest, choice)).map((choice) => ({ contest: contest.id, choice }))
	);
	return {
		'@type': 'CVR.Election',
		'@id': idOf.election(election.id),
		ElectionScopeId: SCOPE,
		Name: say(election.title, language),
		Candidate: named.map(({ contest, choice }) => ({
			'@type': 'CVR.Candidate',
			'@id': idOf.candidate(contest, choice.id),
			Name: say(choice.name, language),
			...(choice.party === undefined ? {} : { PartyId: idOf.party(choice.party) })
		})),
		Contest: contests.map((contest) => recordContest(contest, language))
	};
}

function recordContest(contest: Contest, language: string): Typed {
	const { id, kind, title, voteFor, party, choices } = contest;
	const common = {
		'@id': idOf.contest(id),
		Name: say(title, language),
		ContestSelection: choices.map((choice) => recordSelection(contest, choice, language))
	};
	if (kind === 'measure') return { '@type': 'CVR.BallotMeasureContest', ...common };
	if (kind === 'retention') return { '@type': 'CVR.RetentionContest', ...common };
	if (kind === 'party-preference') return { '@type': 'CVR.PartyContest', ...common };
	return {
		'@type': 'CVR.CandidateContest',
		...common,
		VotesAllowed: voteFor,
		VoteVariation: kind === 'ranked' ? 'rcv' : voteFor === 1 ? 'plurality' : 'n-of-m',
		...(party === undefined ? {} : { PrimaryPartyId: idOf.party(party) })
	};
}

function recordSelection(contest: Contest, choice: Choice, language: string): Typed {
	const id = { '@id': idOf.selection(contest.id, choice.id) };
	if (choice.kind === 'write-in') return { '@type': 'CVR.CandidateSelection', ...id, IsWriteIn: true };
	if (isPerson(contest, choice))
		return { '@type': 'CVR.CandidateSelection', ...id, CandidateIds: [idOf.candidate(contest.id, choice.id)] };
	if (choice.kind === 'candidate' && choice.party !== undefined)
		return { '@type': 'CVR.PartySelection', ...id, PartyIds: [idOf.party(choice.party)] };
	return { '@type': 'CVR.BallotMeasureSelection', ...id, Selection: say(choice.name, language) };
}

/** Whether the choice is a candidate: what stands under a party's name is that party. */
const isPerson = ({ kind }: Contest, choice: Choice): boolean =>
	choice.kind === 'candidate' && !(kind === 'party-preference' && choice.party !== undefined);

const say = (text: Text, language: string): string => text[language] ?? '';
