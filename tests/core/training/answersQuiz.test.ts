import { describe, expect, test } from 'vitest';
import { answerOn } from '$core/answers/answerOn';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import { makeQuiz, QUIZ_CHOICES } from '$core/training/answersQuiz';
import { openSearch } from '$lib/answers/search';

const NOW_UTC_MS = Date.UTC(2027, 7, 30, 15);

describe.each(['en', 'es'] as const)('a quiz on the answers: %s', (language) => {
	const search = openSearch(county.answers, language);
	const quizOf = (seed: number, questions = 20) =>
		makeQuiz(county.answers, {
			language,
			questions,
			seed,
			rank: (phrase) => search(phrase).map(({ id }) => id),
			isApproved: (answer) => answerOn(county, answer, NOW_UTC_MS, language).status === 'approved'
		});
	const answer = (id: string) => county.answers.find((one) => one.id === id)!;

	test('asks callers’ phrases, each on another answer, with four answers to choose from', () => {
		const quiz = quizOf(1);
		expect(quiz).toHaveLength(20);
		expect(new Set(quiz.map((question) => question.answer)).size).toBe(20);
		for (const { phrase, answer: right, options } of quiz) {
			expect(answer(right).callersWords[language]).toContain(phrase);
			expect(new Set(options).size).toBe(QUIZ_CHOICES);
			expect(options).toContain(right);
		}
	});

	test('offers no other answer to the same question, and none that holds the same phrase', () => {
		for (const { phrase, answer: right, options } of [1, 2, 3].flatMap((seed) => quizOf(seed)))
			for (const other of options.filter((id) => id !== right)) {
				const shared = answer(other).questions.filter((number) => answer(right).questions.includes(number));
				expect([right, other, shared]).toEqual([right, other, []]);
				expect(answer(other).callersWords[language]).not.toContain(phrase);
			}
	});

	test('puts the right answer in every place, about as often', () => {
		const places = [1, 2, 3, 4, 5, 6].flatMap((seed) =>
			quizOf(seed).map(({ answer: right, options }) => options.indexOf(right))
		);
		for (const place of [0, 1, 2, 3]) {
			const share = places.filter((one) => one === place).length / places.length;
			expect(share).toBeGreaterThan(0.1);
			expect(share).toBeLessThan(0.4);
		}
	});

	test('is the same for the same seed, and another for another', () => {
		expect(quizOf(7)).toEqual(quizOf(7));
		expect(quizOf(7)).not.toEqual(quizOf(8));
	});

	test('asks about no answer that may not be given', () => {
		const open = county.answers.map((one) => ({ ...one, approvedBy: '' }));
		const quiz = makeQuiz(open, {
			language,
			questions: 5,
			seed: 1,
			rank: (phrase) => search(phrase).map(({ id }) => id),
			isApproved: (one) => answerOn(county, one, NOW_UTC_MS, language).status === 'approved'
		});
		expect(quiz).toEqual([]);
	});
});
