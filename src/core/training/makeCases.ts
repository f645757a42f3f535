import type { Contest } from '../election/election';
import { randomFrom } from '../random';
import type { ContestCase } from './contestCase';
import { RECIPES, type Ingredients, type Recipe } from './recipes';

/** Enough that the hundred least certain leave the plain ones out; any seed would do. */
const ROUNDS = 4;
const SEED = 7;

/** Most hands tried before a recipe is taken to have no further variation. */
const MOST_TRIES = 20;

/**
 * `rounds` cases of every recipe, each on a contest that has what it needs. The same contests and seed give the same
 * cases in the same order on every device, no two of them alike and the recipes mixed. Throws a RangeError where no contest fits a recipe.
 */
export function makeCases(contests: readonly Contest[], rounds = ROUNDS, seed = SEED): readonly ContestCase[] {
	const random = randomFrom(seed);
	const seen = new Set<string>();
	const made = RECIPES.flatMap((recipe) => {
		const fitting = contests.filter((contest) => fits(contest, recipe));
		if (fitting.length === 0)
			throw new RangeError(`makeCases: expected a contest for "${recipe.id}" (${recipe.needs ?? 'any'}), got none`);
		// An empty contest differs only by its contest: more of it than contests would be the same again.
		const most = recipe.id === 'nothing' ? Math.min(1, rounds) : rounds;
		return Array.from({ length: most }, (_, round) => {
			for (let tries = 0; tries < MOST_TRIES; tries += 1) {
				const one = prepare(recipe, fitting, round, random);
				const key = JSON.stringify([one.contest, one.marks.map((mark) => ({ ...mark, seed: 0 })), one.says]);
				if (seen.has(key)) continue;
				seen.add(key);
				return one;
			}
			throw new RangeError(`makeCases: expected ${rounds} different cases of "${recipe.id}", got ${round}`);
		});
	});
	return shuffled(made, random);
}

function fits({ choices, voteFor }: Contest, { needs }: Recipe): boolean {
	if (needs === 'several-seats') return voteFor > 1 && choices.length > voteFor;
	if (needs === 'write-in') return voteFor === 1 && choices.some(({ kind }) => kind === 'write-in');
	// With several seats, two marks are no more than allowed: the recipes of one vote belong to contests of one.
	return voteFor === 1;
}

function prepare(recipe: Recipe, contests: readonly Contest[], round: number, random: () => number): ContestCase {
	const contest = contests[Math.floor(random() * contests.length)];
	if (!contest) throw new RangeError('makeCases: expected at least one contest, got none');
	const from: Ingredients = {
		rows: shuffled(
			contest.choices.filter(({ kind }) => kind !== 'write-in').map(({ id }) => id),
			random
		),
		writeIn: contest.choices.find(({ kind }) => kind === 'write-in')?.id,
		voteFor: contest.voteFor,
		between: (least, most) => Math.round((least + (most - least) * random()) * 100) / 100,
		oneOf: ([first, ...rest]) => [first, ...rest][Math.floor(random() * (rest.length + 1))] ?? first
	};
	const { marks, says = [] } = recipe.prepare(from);
	return {
		id: `${recipe.id}-${round + 1}`,
		contest: contest.id,
		marks: marks.map((mark) => ({ ...mark, seed: 1 + Math.floor(random() * 1e6) })),
		says
	};
}

/** Fisher and Yates' shuffle; a new list. */
export function shuffled<T>(list: readonly T[], random: () => number): readonly T[] {
	const left = [...list];
	for (let end = left.length - 1; end > 0; end -= 1) {
		const at = Math.floor(random() * (end + 1));
		[left[end], left[at]] = [left[at] as T, left[end] as T];
	}
	return left;
}
