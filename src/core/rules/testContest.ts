import { isStruck } from './choiceFacts';
import type { ContestFacts } from './facts';
import type { Tally } from './place';
import { both, either, NO, UNSURE, YES, type Truth } from './truth';

/** How many votes there are against how many are allowed. A ranking is never too long. */
export function testVotes(words: readonly string[], { kind, voteFor }: ContestFacts, { votes, open }: Tally): Truth {
	const limit = kind === 'ranked' ? Infinity : voteFor;
	return words.reduce<Truth>((sum, word) => either(sum, testCount(word, votes, votes + open, limit)), NO);
}

/** `least` and `most`: with none and with all of the choices that a person must settle. */
function testCount(word: string, least: number, most: number, limit: number): Truth {
	switch (word) {
		case 'none':
			return within(least, most, 0, 0);
		case 'fewer':
			return within(least, most, 1, limit - 1);
		case 'full':
			return within(least, most, limit, limit);
		default:
			return within(least, most, limit + 1, Infinity);
	}
}

const within = (least: number, most: number, from: number, to: number): Truth =>
	least >= from && most <= to ? YES : most < from || least > to ? NO : UNSURE;

/** Some printed choice is crossed out, and those left are at least one and no more than allowed. */
export function testLeftUnstruck({ choices, voteFor }: ContestFacts): Truth {
	let struck = 0;
	let left = 0;
	let open = 0;
	for (const choice of choices) {
		if (choice.kind === 'write-in' && choice.marks.length === 0) continue;
		const found = isStruck(choice);
		if (found === YES) struck++;
		else if (found === NO) left++;
		else open++;
	}
	return both(within(struck, struck + open, 1, Infinity), within(left, left + open, 1, voteFor));
}
