import { fleschKincaid } from 'flesch-kincaid';
import { syllable } from 'syllable';
import { describe, expect, test } from 'vitest';
import { answerOn } from '$core/answers/answerOn';
import { codeOfSituation } from '$core/answers/codeOfSituation';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import { MISTAKE_CODES } from '$core/answers/mistakeCodes';
import { QUESTIONS } from '$core/answers/questions';
import { REMEDIES, SITUATIONS } from '$core/advice/situation';
import { check } from '$core/election/check';
import rulebook from '$core/rules/sets/demo-county.json' with { type: 'json' };

/** English: at most this grade on average, and no answer above the second figure. */
const HIGHEST_GRADE = 8;
const HIGHEST_GRADE_OF_ONE = 10;
/**
 * Spanish: on the Szigriszt-Pazos perspicuity scale as read by the INFLESZ bands (Barrio-Cantalejo and others, 2008),
 * 55 to 65 is "normal", 65 to 80 "fairly easy". Ours: fairly easy on average, none below normal.
 */
const LOWEST_EASE = 65;
const LOWEST_EASE_OF_ONE = 55;

const sentencesOf = (text: string): string[] => text.split(/(?<=[.?!:])\s+/).filter((part) => /\p{L}/u.test(part));
const wordsOf = (text: string): string[] => text.match(/[\p{L}’'-]+/gu) ?? [];

/** Kincaid, Fishburne, Rogers and Chissom, Research Branch Report 8-75, 1975. */
function gradeOf(text: string): number {
	const words = wordsOf(text);
	const syllables = words.reduce((sum, word) => sum + syllable(word), 0);
	return fleschKincaid({ sentence: sentencesOf(text).length, word: words.length, syllable: syllables });
}

/** Szigriszt-Pazos 1993: 206.835 - 62.3 syllables a word - words a sentence. */
function easeOf(text: string): number {
	const words = wordsOf(text);
	const syllables = words.reduce((sum, word) => sum + spanishSyllables(word), 0);
	return 206.835 - (62.3 * syllables) / words.length - words.length / sentencesOf(text).length;
}

/** One for each vowel, but for weak ones beside another without an accent, and the mute u of que, qui, gue, gui. */
function spanishSyllables(word: string): number {
	const spoken = word
		.toLowerCase()
		.replace(/qu(?=[eiéí])/g, 'k')
		.replace(/gu(?=[eiéí])/g, 'g')
		.replace(/y\b/g, 'i');
	const strong = spoken.match(/[aeoáéíóú]/g)?.length ?? 0;
	const weakAlone = spoken.match(/(?<![aeoáéóiuü])[iuü]+(?![aeoáéó])/g)?.length ?? 0;
	return Math.max(1, strong + weakAlone);
}

const NOW = Date.parse('2027-08-30T15:00:00Z');
/** Every text of every answer, as it is read: filled in. Numbers and addresses are no words. */
const read = (language: string): { id: string; text: string; readAloud: string; title: string }[] =>
	county.answers.map((answer) => {
		const now = answerOn(county, answer, NOW, language);
		return { id: answer.id, title: now.title, text: plain(now.text), readAloud: plain(now.readAloud) };
	});
const plain = (text: string): string => text.replace(/https?:\S+|\d[\d-]*(?:\([a-z]\))?|[AP]M\b|p\. ?m\./g, '');

describe('the demo county’s ledger', () => {
	test('is fit to publish', () => {
		expect(check(county)).toEqual([]);
	});

	test('answers each of the 97 questions once', () => {
		expect(QUESTIONS.map(({ number }) => number)).toEqual(Array.from({ length: 97 }, (_, i) => i + 1));
		const answered = county.answers.flatMap(({ questions }) => questions).sort((a, b) => a - b);
		expect(answered).toEqual(QUESTIONS.map(({ number }) => number));
	});

	test('says of every answer that it is made up', () => {
		for (const { id, cite, citeIn, approvedBy, approvedByIn, invented } of county.answers) {
			expect([id, cite, approvedBy.endsWith('invented'), invented]).toEqual([id, 'Demo policy, invented', true, true]);
			expect([id, citeIn]).toEqual([id, { es: 'Norma de demostración, inventada' }]);
			expect([id, approvedByIn?.['es']?.endsWith('inventado')]).toEqual([id, true]);
		}
	});

	test('cites only clauses that the county’s rulebook has, by the number it gives them', () => {
		const known = new Set(rulebook.clauses.map(({ id }) => id));
		for (const { id, clauses = [] } of county.answers)
			for (const clause of clauses) expect([id, clause, known.has(clause)]).toEqual([id, clause, true]);
		for (const { id, clauses = [], text } of county.answers)
			for (const [, number, letter] of (text['en'] ?? '').matchAll(/(\d+)\(([a-z])\)/g))
				expect([id, clauses]).toEqual([id, expect.arrayContaining([`demo-${number}${letter}`])]);
	});

	test('has an answer for every mistake code, and callers’ words for each answer', () => {
		const used = new Set(county.answers.map(({ mistakeCode }) => mistakeCode));
		expect(MISTAKE_CODES.filter(({ id }) => !used.has(id)).map(({ id }) => id)).toEqual([]);
		for (const { id, callersWords } of county.answers)
			for (const language of county.languages) {
				const phrases = callersWords[language] ?? [];
				expect([id, language, phrases.length >= 10]).toEqual([id, language, true]);
				expect([id, new Set(phrases).size]).toEqual([id, phrases.length]);
			}
	});

	test('never promises that a vote counts or is valid', () => {
		const banned = {
			en: /\bcount(s|ed|ing)?\b|\b(in)?valid\b|\blegal vote\b|\bvotes? (is|are) wasted\b/i,
			es: /(?<!\p{L})(cuentan?|contar\p{L}*|contad[oa]s?|(in)?válid[oa]s?|nul[oa]s?)(?!\p{L})/iu
		};
		for (const language of ['en', 'es'] as const)
			for (const { id, title, text, readAloud } of read(language))
				for (const said of [title, text, readAloud]) expect([id, banned[language].exec(said)]).toEqual([id, null]);
	});

	test('speaks to a Spanish reader as usted', () => {
		const familiar = /(?<!\p{L})(tú|tu|tus|ti|contigo|puedes|tienes|debes|quieres|llena|marca tu|firma tu)(?!\p{L})/iu;
		for (const { id, text, readAloud } of read('es'))
			for (const said of [text, readAloud]) expect([id, familiar.exec(said)?.[0]]).toEqual([id, undefined]);
	});

	test('reads aloud in four sentences at most', () => {
		for (const language of county.languages)
			for (const { id, readAloud } of read(language)) {
				const sentences = readAloud.match(/[.?!](?=\s|$)/g)?.length ?? 0;
				expect([id, language, sentences, sentences >= 1 && sentences <= 4]).toEqual([id, language, sentences, true]);
			}
	});
});

describe('how hard the answers are to read', () => {
	test('is told from hard to easy', () => {
		expect(gradeOf('Jurisdictional adjudication procedures necessitate comprehensive determination.')).toBeGreaterThan(
			12
		);
		expect(gradeOf('Fill the oval. Use a dark pen.')).toBeLessThan(3);
		expect(easeOf('Los procedimientos jurisdiccionales necesitan una determinación administrativa.')).toBeLessThan(30);
		expect(easeOf('Use tinta negra. No borre. Pida otra.')).toBeGreaterThan(80);
	});

	test('syllables of Spanish words are as a dictionary parts them', () => {
		// Division by the rules of the Ortografía of the Spanish academies (2010), chapter on syllables.
		const parts = {
			óvalo: 3,
			boleta: 3,
			línea: 3,
			cuando: 2,
			quiere: 2,
			guía: 2,
			oficina: 4,
			ciudad: 2,
			leer: 2,
			y: 1,
			día: 2
		};
		for (const [word, count] of Object.entries(parts)) expect([word, spanishSyllables(word)]).toEqual([word, count]);
	});

	test(`English: grade ${HIGHEST_GRADE} or below on average, none above ${HIGHEST_GRADE_OF_ONE}`, () => {
		for (const form of ['text', 'readAloud'] as const) {
			const grades = read('en').map((entry) => ({ id: entry.id, grade: gradeOf(entry[form]) }));
			expect(grades.filter(({ grade }) => grade > HIGHEST_GRADE_OF_ONE)).toEqual([]);
			expect(grades.reduce((sum, { grade }) => sum + grade, 0) / grades.length).toBeLessThanOrEqual(HIGHEST_GRADE);
		}
	});

	test(`Spanish: ease of ${LOWEST_EASE} or more on average, none below ${LOWEST_EASE_OF_ONE}`, () => {
		for (const form of ['text', 'readAloud'] as const) {
			const eases = read('es').map((entry) => ({ id: entry.id, ease: easeOf(entry[form]) }));
			expect(eases.filter(({ ease }) => ease < LOWEST_EASE_OF_ONE)).toEqual([]);
			expect(eases.reduce((sum, { ease }) => sum + ease, 0) / eases.length).toBeGreaterThanOrEqual(LOWEST_EASE);
		}
	});
});

describe('mistake codes', () => {
	test('are each there once, with a label in both languages', () => {
		const ids = MISTAKE_CODES.map(({ id }) => id);
		expect(new Set(ids).size).toBe(ids.length);
		for (const { id, label } of MISTAKE_CODES) expect([id, Object.keys(label)]).toEqual([id, ['en', 'es']]);
	});

	test('cover every situation of the practice ballot that asks for a second look, and no other', () => {
		for (const situation of SITUATIONS) {
			const code = codeOfSituation(situation);
			expect([situation, code !== undefined]).toEqual([situation, REMEDIES[situation].tone === 'look']);
		}
	});
});
