import type { Node } from './compile';
import { testBallot, testTechnique } from './testBallot';
import { isStruck, isSupported, isWritten, nameIsWritten } from './choiceFacts';
import { testMark } from './markFacts';
import type { Cell, Place } from './place';
import { testLeftUnstruck, testVotes } from './testContest';
import { both, either, negate, NO, truth, UNSURE, YES, type Truth } from './truth';

/** Whether a condition holds at a place; for choice conditions `cell` is the choice it speaks of. */
export function testCondition(node: Node, at: Place, cell: Cell): Truth {
	const { op } = node;
	switch (op) {
		case 'always':
			return YES;
		case 'all':
			return testAll(node.parts, at, cell);
		case 'any':
			return testAny(node.parts, at, cell);
		case 'not':
			return negate(testAll(node.parts, at, cell));
		case 'onBallot': {
			const found = testMarks(node, at.ballot.marks);
			return found === NO && at.ballot.pagesMissing.length > 0 ? UNSURE : found;
		}
		case 'ballot':
			return testBallot(node.name, at);
		case 'shape':
			return truth(node.words.includes(at.ballot.shape));
		case 'channel':
			return testTold(node.words, at.ballot.told.channel ?? at.rulebook.assumes?.channel);
		case 'count':
			return testTold(node.words, at.ballot.told.count ?? at.rulebook.assumes?.count);
		case 'switch': {
			const switches: Readonly<Record<string, string | undefined>> = at.rulebook.switches ?? {};
			return truth(node.words.includes(switches[node.name] ?? ''));
		}
		case 'someContest':
			return testSomeContest(node, at);
		default:
			if (cell) {
				const found = testOfChoice(node, at, cell);
				if (found !== undefined) return found;
			}
			return testOfContest(node, at);
	}
}

function testAll(parts: readonly Node[], at: Place, cell: Cell): Truth {
	let result: Truth = YES;
	for (const part of parts) {
		result = both(result, testCondition(part, at, cell));
		if (result === NO) return NO;
	}
	return result;
}

function testAny(parts: readonly Node[], at: Place, cell: Cell): Truth {
	let result: Truth = NO;
	for (const part of parts) {
		result = either(result, testCondition(part, at, cell));
		if (result === YES) return YES;
	}
	return result;
}

function testMarks({ mark }: Node, marks: Place['ballot']['marks']): Truth {
	let result: Truth = NO;
	for (const one of marks) {
		result = either(result, testMark(mark, one));
		if (result === YES) return YES;
	}
	return result;
}

/** Nobody has said how the ballot comes in or is counted, and the rulebook takes nothing for granted. */
const testTold = (words: readonly string[], told: string | undefined): Truth =>
	told === undefined ? UNSURE : truth(words.includes(told));

function testSomeContest(node: Node, at: Place): Truth {
	let result: Truth = NO;
	for (const { contest, tally, looked } of at.decided)
		result = either(result, testAll(node.parts, { ...at, contest, tally, looked }, undefined));
	return result === NO && at.ballot.pagesMissing.length > 0 ? UNSURE : result;
}

/** Words that ask about a choice; undefined for the others. */
function testOfChoice(node: Node, at: Place, cell: NonNullable<Cell>): Truth | undefined {
	const { op } = node;
	switch (op) {
		case 'mark':
		case 'erased':
			return testMarks(node, cell.marks);
		case 'target':
			return truth(
				(node.words.length === 0 || node.words.includes(cell.level)) && cell.fill >= node.from && cell.fill < node.below
			);
		case 'choice':
			return truth(node.words.includes(cell.kind));
		case 'answer':
			return truth(cell.answer === node.name);
		case 'struck':
			return isStruck(cell);
		case 'supported':
			return isSupported(cell);
		case 'written':
			return isWritten(cell);
		case 'named':
			return nameIsWritten(cell, at.contest);
		case 'technique':
			return testTechnique(node.name, cell, at);
		case 'other':
			return others(cell, at).reduce<Truth>((sum, one) => either(sum, testAll(node.parts, at, one)), NO);
		case 'everyOther': {
			const rest = others(cell, at).filter(({ kind, marks }) => kind !== 'write-in' || marks.length > 0);
			return rest.reduce<Truth>((sum, one) => both(sum, testAll(node.parts, at, one)), truth(rest.length > 0));
		}
		default:
			return undefined;
	}
}

/** On a ranked contest the others are those at the same rank. */
const others = (cell: NonNullable<Cell>, { contest }: Place): readonly NonNullable<Cell>[] =>
	(contest?.choices ?? []).filter(({ id, rank }) => id !== cell.id && rank === cell.rank);

function testOfContest(node: Node, at: Place): Truth {
	const { contest, tally } = at;
	if (!contest) return NO;
	const { op } = node;
	switch (op) {
		case 'contest':
			return truth(node.words.includes(contest.kind));
		case 'seats':
			return truth((node.name === 'several') === contest.voteFor > 1);
		case 'partisan':
			return truth(contest.party !== undefined);
		case 'machine':
			return truth(node.words.includes(contest.machine.state));
		case 'looked':
			return truth(at.looked);
		case 'inContest':
			return contest.choices.reduce<Truth>(
				(sum, { marks }) => either(sum, testMarks(node, marks)),
				testMarks(node, contest.loose)
			);
		case 'leftUnstruck':
			return testLeftUnstruck(contest);
		case 'someChoice':
			return contest.choices.reduce<Truth>((sum, one) => either(sum, testAll(node.parts, at, one)), NO);
		case 'voted':
			return contest.choices.reduce<Truth>((sum, one, i) => {
				const result = tally?.choices[i]?.result;
				const voted = result === 'vote' ? YES : result === 'open' ? UNSURE : NO;
				return voted === NO ? sum : either(sum, both(voted, testAll(node.parts, at, one)));
			}, NO);
		case 'votes':
			return tally ? testVotes(node.words, contest, tally) : NO;
		case 'ranked':
			return tally?.rankEvents.includes(node.name) ? YES : tally && tally.open > 0 ? UNSURE : NO;
		default:
			return NO;
	}
}
