import { citationIn } from '$core/election/text';
import type { ClauseReference } from '$core/reading/statement';
import type { Rulebook } from '$core/rules/rule';

/** The citations of clauses, in the language of the page where their rulebook has them in it. */
export const cited = (
	references: readonly ClauseReference[],
	{ clauses }: Pick<Rulebook, 'clauses'>,
	language: string
): readonly string[] => references.map((one) => citationIn(clauses.find(({ id }) => id === one.id) ?? one, language));
