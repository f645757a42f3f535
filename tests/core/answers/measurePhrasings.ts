import { countyWithAnswers } from '../../../src/core/answers/demoCounty';
import type { Search } from '../../../src/lib/answers/search';
import english from './phrasings.en.json' with { type: 'json' };
import spanish from './phrasings.es.json' with { type: 'json' };

export const PHRASINGS = { en: english, es: spanish } as const;

export interface Part {
	readonly part: 'tuning' | 'held out';
	readonly phrasings: number;
	readonly first: number;
	readonly firstThree: number;
	/** A line for each phrasing whose answer is not first. */
	readonly missed: readonly string[];
	readonly asked: readonly string[];
}

/** Figures for the phrasings that words and weights were tuned on, and for those written afterwards and held out. */
export function measurePhrasings(search: Search, language: 'en' | 'es'): readonly Part[] {
	return (['tuning', 'held out'] as const).map((part) => {
		const chosen = PHRASINGS[language].filter(({ set }) => set === part);
		const ranks = chosen.map(({ question, asked }) => {
			const right = answerTo(question);
			const found = search(asked).map(({ id }) => id);
			return { rank: found.indexOf(right), line: `${asked} → ${right}: ${found.slice(0, 3).join(', ')}` };
		});
		return {
			part,
			phrasings: chosen.length,
			first: ranks.filter(({ rank }) => rank === 0).length,
			firstThree: ranks.filter(({ rank }) => rank >= 0 && rank < 3).length,
			missed: ranks.filter(({ rank }) => rank !== 0).map(({ line }) => line),
			asked: chosen.map(({ asked }) => asked)
		};
	});
}

/** Throws where no answer has the question: the corpus or the ledger is wrong. */
export function answerTo(question: number): string {
	const answer = countyWithAnswers.answers.find(({ questions }) => questions.includes(question));
	if (!answer) throw new Error(`answerTo: expected an answer to question ${question}, found none`);
	return answer.id;
}
