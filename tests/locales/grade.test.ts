import { fleschKincaid } from 'flesch-kincaid';
import { syllable } from 'syllable';
import { describe, expect, it } from 'vitest';
import { locales, withoutPlaceholders } from './texts';

const HIGHEST_GRADE = 8;
/** One long sentence loses a reader, however easy the rest is. */
const HIGHEST_GRADE_OF_ONE = 10;
const SECTIONS = [
	'home',
	'practice',
	'advice',
	'reading',
	'answers',
	'rulesPage',
	'training',
	'paper',
	'event'
] as const;

/**
 * School grade by the Flesch-Kincaid formula. Source: Kincaid, Fishburne, Rogers and Chissom, "Derivation of new
 * readability formulas for Navy enlisted personnel", Research Branch Report 8-75, 1975.
 */
function gradeOf(texts: readonly string[]): number {
	const sentences = texts.flatMap((text) => text.split(/(?<=[.?!:])\s+/)).filter((s) => /\p{L}/u.test(s));
	const words = sentences.flatMap((sentence) => sentence.match(/[\p{L}’'-]+/gu) ?? []);
	const syllables = words.reduce((sum, word) => sum + syllable(word), 0);
	return fleschKincaid({ sentence: sentences.length, word: words.length, syllable: syllables });
}

/** Whole sentences only: labels of a word or two would make any text look easy. */
const sentencesIn = (section: string): string[] =>
	[...locales.en]
		.filter(([key, text]) => key.startsWith(`${section}.`) && /[.?!]$/.test(text ?? ''))
		.map(([, text]) => withoutPlaceholders(text ?? '', 'it'));

describe('the reading grade of the English texts', () => {
	it('is told from hard to easy', () => {
		const hard = 'Jurisdictional adjudication procedures necessitate comprehensive determination of voter intent.';
		expect(gradeOf([hard])).toBeGreaterThan(HIGHEST_GRADE);
		expect(gradeOf(['Fill the oval. Use a dark pen.'])).toBeLessThan(3);
	});

	it('is that of the published formula', () => {
		// Counted by hand: two sentences, nine words, thirteen syllables.
		expect(gradeOf(['The voter fills the oval. People look at paper.'])).toBeCloseTo(
			0.39 * (9 / 2) + 11.8 * (13 / 9) - 15.59,
			6
		);
	});

	it.each(SECTIONS)(`is at most ${String(HIGHEST_GRADE)} in %s`, (section) => {
		const texts = sentencesIn(section);
		expect(texts.length).toBeGreaterThan(5);
		expect(gradeOf(texts)).toBeLessThanOrEqual(HIGHEST_GRADE);
	});

	it(`is at most ${String(HIGHEST_GRADE_OF_ONE)} in any one text`, () => {
		const hard = SECTIONS.flatMap(sentencesIn).filter((text) => gradeOf([text]) > HIGHEST_GRADE_OF_ONE);
		expect(hard).toEqual([]);
	});

	it(`is at most ${String(HIGHEST_GRADE)} over all of them`, () => {
		expect(gradeOf(SECTIONS.flatMap(sentencesIn))).toBeLessThanOrEqual(HIGHEST_GRADE);
	});
});
