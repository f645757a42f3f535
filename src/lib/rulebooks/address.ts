/**
 * The part of an address after its `#`: prerendered pages may not read a query, and a hash works with no network.
 * A rulebook is `#us-tx`, one clause of it `#us-tx/TX-c`; a comparison is a picture and its rulebooks: `#dot/us-tx+us-ak`.
 */

/** What a rulebook's page is asked to show. */
export interface RulebookPlace {
	readonly rulebook: string;
	readonly clause?: string;
}

/** What the comparison is asked to show. */
export interface ComparisonPlace {
	readonly picture: string;
	/** Left out where nobody has picked any yet; empty where somebody has picked none. */
	readonly rulebooks?: readonly string[];
}

export const hashOfRulebook = ({ rulebook, clause }: RulebookPlace): string =>
	`#${encodeURIComponent(rulebook)}${clause === undefined ? '' : `/${encodeURIComponent(clause)}`}`;

/** The id of a clause's element, so that its address works before any script runs. */
export const clauseElementId = (rulebook: string, clause: string): string => `${rulebook}/${clause}`;

/** undefined where the hash names nothing. */
export function rulebookPlaceIn(hash: string): RulebookPlace | undefined {
	const [rulebook, clause] = partsOf(hash);
	if (!rulebook) return undefined;
	return clause ? { rulebook, clause } : { rulebook };
}

export const hashOfComparison = ({ picture, rulebooks }: ComparisonPlace): string =>
	`#${encodeURIComponent(picture)}${rulebooks ? `/${rulebooks.map(encodeURIComponent).join('+')}` : ''}`;

export function comparisonPlaceIn(hash: string): ComparisonPlace | undefined {
	const [picture, rulebooks] = partsOf(hash);
	if (!picture) return undefined;
	return rulebooks === undefined ? { picture } : { picture, rulebooks: rulebooks.split('+').filter((id) => id !== '') };
}

/** Parts between slashes. A hash that somebody cut short in the middle of a %-code is taken as it stands. */
const partsOf = (hash: string): readonly string[] =>
	hash
		.replace(/^#/, '')
		.split('/')
		.map((part) => {
			try {
				return decodeURIComponent(part);
			} catch {
				return part;
			}
		});
