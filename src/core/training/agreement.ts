/** One case as one person decided it, and what decides it under the rulebook. */
export interface Judged {
	readonly case: string;
	/** What was decided, as a name that cases share. */
	readonly category: string;
	/** By what the case is decided: ids of clauses, or what stands for none; see `groundsOf`. */
	readonly grounds: readonly string[];
}

/** How often two deciders came to the same, over the cases that both decided. */
export interface Agreement {
	readonly cases: number;
	readonly agreed: number;
	/** 0 to 1; undefined where there was no case. */
	readonly rate: number | undefined;
	/** Cohen's kappa, -1 to 1; undefined where chance alone would agree on every case, and where there was none. */
	readonly kappa: number | undefined;
}

export interface GroundAgreement extends Agreement {
	readonly ground: string;
}

/** Of fewer cases than this a share says little. Our own choice: no source sets one. */
export const FEW_CASES = 10;

/**
 * Agreement between two deciders of the same cases; one of them may be the rulebook. Cases that only one has are left
 * out.
 *
 * Kappa is (po - pe) / (1 - pe): po is the share of cases on which they agree, pe the share on which they would by
 * chance, which is the sum over categories of the product of each one's own share of it. Source: J. Cohen, "A
 * coefficient of agreement for nominal scales", Educational and Psychological Measurement 20(1), 1960, pages 37-46.
 */
export function agreementOf(one: readonly Judged[], other: readonly Judged[]): Agreement {
	const pairs = pairsOf(one, other);
	const cases = pairs.length;
	if (cases === 0) return { cases, agreed: 0, rate: undefined, kappa: undefined };
	const agreed = pairs.filter(([a, b]) => a === b).length;
	const ones = timesOf(pairs.map(([a]) => a));
	const others = timesOf(pairs.map(([, b]) => b));
	// Whole numbers until the last step, so that "always the same by chance" is met exactly.
	const byChance = [...ones].reduce((sum, [category, times]) => sum + times * (others.get(category) ?? 0), 0);
	const kappa = byChance === cases * cases ? undefined : (agreed * cases - byChance) / (cases * cases - byChance);
	return { cases, agreed, rate: agreed / cases, kappa };
}

/** The same by what decides, in the order in which that is first met. A case that two clauses decide is with both. */
export function agreementByGround(one: readonly Judged[], other: readonly Judged[]): readonly GroundAgreement[] {
	return [...new Set(one.flatMap(({ grounds }) => grounds))].map((ground) => ({
		ground,
		...agreementOf(
			one.filter(({ grounds }) => grounds.includes(ground)),
			other
		)
	}));
}

/** Cases on which the two differ, in the order of the first. */
export function differences(one: readonly Judged[], other: readonly Judged[]): readonly string[] {
	const categories = new Map(other.map((judged) => [judged.case, judged.category]));
	return one
		.filter((judged) => categories.has(judged.case) && categories.get(judged.case) !== judged.category)
		.map((judged) => judged.case);
}

function pairsOf(one: readonly Judged[], other: readonly Judged[]): readonly (readonly [string, string])[] {
	const categories = new Map(other.map((judged) => [judged.case, judged.category]));
	return one.flatMap((judged) => {
		const category = categories.get(judged.case);
		return category === undefined ? [] : [[judged.category, category] as const];
	});
}

function timesOf(list: readonly string[]): ReadonlyMap<string, number> {
	const times = new Map<string, number>();
	for (const one of list) times.set(one, (times.get(one) ?? 0) + 1);
	return times;
}
