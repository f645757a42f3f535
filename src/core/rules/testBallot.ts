import type { BallotFacts, ChoiceFacts } from './facts';
import type { Place } from './place';
import { hasTechnique, techniqueOf, type TechniqueFacts } from './techniqueFacts';
import { both, either, NO, truth, UNSURE, YES, type Truth } from './truth';

/** A fact of the whole ballot. What only a page not seen could show is not settled. */
export function testBallot(name: string, at: Place): Truth {
	const { ballot } = at;
	const missing = ballot.pagesMissing.length > 0;
	switch (name) {
		case 'nothing-readable':
			return both(nothingReadable(ballot), missing ? UNSURE : YES);
		case 'damaged':
			return truth(ballot.told.damaged === true);
		case 'pages-missing':
			return truth(missing);
		case 'votes-in-several-parties':
			return severalParties(at);
		case 'preference-marked':
			return preferenceMarked(at);
		default:
			return NO;
	}
}

function nothingReadable({ contests }: BallotFacts): Truth {
	let result: Truth = YES;
	for (const { choices } of contests)
		for (const { level } of choices) {
			if (level === 'dark') return NO;
			if (level === 'unsure') result = UNSURE;
		}
	return result;
}

function severalParties({ ballot, decided }: Place): Truth {
	const sure = new Set<string>();
	const perhaps = new Set<string>();
	for (const { contest, tally } of decided) {
		if (contest.party === undefined) continue;
		if (tally.votes > 0) sure.add(contest.party);
		if (tally.votes + tally.open > 0) perhaps.add(contest.party);
	}
	if (sure.size > 1) return YES;
	return perhaps.size > 1 || ballot.partyUnseen ? UNSURE : NO;
}

function preferenceMarked({ ballot, decided }: Place): Truth {
	const asked = decided.filter(({ contest }) => contest.kind === 'party-preference');
	if (asked.length === 0) return ballot.pagesMissing.length > 0 ? UNSURE : NO;
	return asked.reduce<Truth>((sum, { tally: { votes, open } }) => {
		const one = open > 0 ? (votes > 1 ? NO : UNSURE) : truth(votes === 1);
		return either(sum, one);
	}, NO);
}

/** Whether a choice is marked as the rest of the ballot is, by any of the marks at it. */
export function testTechnique(name: string, cell: ChoiceFacts, at: Place): Truth {
	let result: Truth = NO;
	for (const mark of cell.marks) {
		if (!hasTechnique(mark)) continue;
		result = either(result, mark.sure ? testOne(name, techniqueOf(mark), at) : UNSURE);
		if (result === YES) return YES;
	}
	return result;
}

function testOne(name: string, technique: number, { ballot, contest }: Place): Truth {
	const missing = ballot.pagesMissing.length > 0;
	if (name === 'majority') return missing ? UNSURE : isMajority(technique, ballot);
	let every: Truth = YES;
	let some: Truth = NO;
	for (const other of ballot.contests) {
		if (other === contest) continue;
		const found = holds(technique, other.techniques);
		if (found === undefined) continue;
		every = both(every, found);
		some = either(some, found);
	}
	return name === 'throughout' ? both(every, missing ? UNSURE : YES) : either(some, missing ? UNSURE : NO);
}

/** undefined: nothing in the contest was marked in any way that could be compared. */
function holds(technique: number, { sure, unsure }: TechniqueFacts): Truth | undefined {
	if (sure.size + unsure === 0) return undefined;
	return sure.has(technique) ? YES : unsure > 0 ? UNSURE : NO;
}

function isMajority(technique: number, { contests }: BallotFacts): Truth {
	let mine = 0;
	let open = 0;
	let all = 0;
	for (const { techniques } of contests) {
		open += techniques.unsure;
		all += techniques.unsure;
		for (const [one, count] of techniques.sure) {
			all += count;
			if (one === technique) mine += count;
		}
	}
	return mine * 2 > all ? YES : (mine + open) * 2 > all ? UNSURE : NO;
}
