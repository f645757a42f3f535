import { evaluate } from '../../src/core/rules/evaluate';
import { picture } from '../core/rules/picture';
import { SETS } from '../core/rules/sets';
import { quantile, time } from './timing';

/**
 * One ballot of 20 contests with 60 marks, of every kind in turn, decided under all rulebooks there are, and
 * under 40 where there are fewer (each then comes several times). Traces are made when read, so they are timed apart.
 */
const LIMIT_MS = 20;
const ROUNDS = 200;
const LEAST_BOOKS = 40;

const KINDS = [
	'fill',
	'cross',
	'check',
	'ring',
	'strike',
	'dot',
	'writing',
	'stroke',
	'underline',
	'erasure',
	'unsure'
];
const ballot = picture({
	contests: Array.from({ length: 20 }, (_, i) => ({
		id: `contest-${i}`,
		voteFor: (i % 3) + 1,
		choices: Object.fromEntries(
			['A', 'B', 'C', 'D', 'E', 'W'].map((id, k) => [id, k < 3 ? (KINDS[(i * 3 + k) % KINDS.length] ?? '') : ''])
		)
	}))
});
const books = Array.from({ length: Math.max(LEAST_BOOKS, SETS.length) }, (_, i) =>
	structuredClone(SETS[i % SETS.length]?.[1])
);

const decideAll = (withTraces: boolean): number => {
	let steps = 0;
	for (const book of books) {
		if (!book) continue;
		const { contests } = evaluate(book, ballot);
		for (const people of contests.values()) steps += withTraces ? people.trace.length : people.votes.length;
	}
	return steps;
};

const deciding = time(ROUNDS, () => decideAll(false));
const tracing = time(ROUNDS, () => decideAll(true));
// Judged by the quickest tenth of the rounds: whatever else the machine does can only add to them.
const quick = quantile(deciding, 0.1);
const shown = (times: readonly number[]): string =>
	`quickest tenth ${quantile(times, 0.1).toFixed(1)} ms, median ${quantile(times, 0.5).toFixed(1)} ms, 95th ${quantile(times, 0.95).toFixed(1)} ms`;
process.stdout.write(
	`${books.length} rulebooks (${SETS.length} different), ${ballot.contests.length} contests, ${ballot.marks.length} marks: ` +
		`${shown(deciding)} (limit ${LIMIT_MS}); with every trace ${shown(tracing)}\n`
);
process.exitCode = quick > LIMIT_MS ? 1 : 0;
