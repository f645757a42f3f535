import type { Answer, Election, Passage, Text } from '../election/election';
import { citationIn, saidIn } from '../election/text';
import type { Clause, Rulebook } from '../rules/rule';

/** A clause of the rulebook as an answer names it. */
export type NamedClause = Pick<Clause, 'id' | 'cite' | 'plain' | 'source'>;

/** What pages that give answers load: the answers with their dates and clauses, and nothing of the ballot. */
export interface Ledger extends Pick<
	Election,
	'id' | 'invented' | 'languages' | 'office' | 'date' | 'dates' | 'passages' | 'answers'
> {
	/** The clauses that the answers name. */
	readonly clauses: readonly NamedClause[];
}

/** The ledger of an election in one of its languages, so that a page carries no words it never shows. */
export function ledgerIn(language: string, election: Election, rulebook: Pick<Rulebook, 'clauses'>): Ledger {
	const { id, invented, date, dates, office, passages = [], answers } = election;
	const only = (text: Text): Text => inLanguage(text, language);
	const named = new Set(answers.flatMap(({ clauses = [] }) => clauses));
	return {
		id,
		invented,
		languages: [language],
		office: { ...office, name: only(office.name) },
		date,
		dates: dates.map((entry) => ({ ...entry, label: only(entry.label) })),
		passages: passages.map((passage): Passage => ({
			...passage,
			text: only(passage.text),
			...(passage.after ? { after: passage.after.map((later) => ({ ...later, text: only(later.text) })) } : {})
		})),
		answers: answers.map(({ citeIn, approvedByIn, ...answer }): Answer => ({
			...answer,
			cite: saidIn(answer.cite, citeIn, language),
			approvedBy: saidIn(answer.approvedBy, approvedByIn, language),
			title: only(answer.title),
			text: only(answer.text),
			readAloud: only(answer.readAloud),
			callersWords: inLanguage(answer.callersWords, language)
		})),
		clauses: rulebook.clauses
			.filter((clause) => named.has(clause.id))
			.map((clause) => ({
				id: clause.id,
				cite: citationIn(clause, language),
				source: clause.source,
				plain: only(clause.plain)
			}))
	};
}

/** The entry of one language; of a text that lacks it, all that is there, for `textIn` to choose from. */
function inLanguage<T>(texts: Readonly<Record<string, T>>, language: string): Readonly<Record<string, T>> {
	return Object.hasOwn(texts, language) ? { [language]: texts[language] as T } : texts;
}
