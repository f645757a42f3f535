import { textIn } from '$core/election/text';
import type { Rulebook } from '$core/rules/rule';
import { JURISDICTIONS } from '$core/rules/vocabulary';

/** A rulebook as a list of them names it. */
export interface ListedRulebook extends Pick<Rulebook, 'id' | 'jurisdiction' | 'howMuchRead'> {
	/** In the page's language. */
	readonly title: string;
}

export interface RulebookGroup {
	readonly jurisdiction: Rulebook['jurisdiction'];
	readonly books: readonly ListedRulebook[];
}

/** In which order the groups stand: what the demo goes by first, then what most who look for a rule look for. */
const ORDER: readonly Rulebook['jurisdiction'][] = ['invented', 'state', 'local', 'country'];

export const listed = ({ id, title, jurisdiction, howMuchRead }: Rulebook, lang: string): ListedRulebook => ({
	id,
	jurisdiction,
	howMuchRead,
	title: textIn(title, lang)
});

/** The rulebooks by kind of jurisdiction, each group by title as the language sorts. No group is empty. */
export function inGroups(books: readonly ListedRulebook[], lang: string): readonly RulebookGroup[] {
	const { compare } = new Intl.Collator(lang);
	return [...JURISDICTIONS]
		.sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b))
		.map((jurisdiction) => ({
			jurisdiction,
			books: books.filter((book) => book.jurisdiction === jurisdiction).sort((a, b) => compare(a.title, b.title))
		}))
		.filter(({ books }) => books.length > 0);
}
