import { describe, expect, test } from 'vitest';
import { Quiz } from '$lib/training/quiz.svelte';
import { Review } from '$lib/training/review.svelte';

const cases = ['a', 'b'];
const blank = { outcome: 'blank' } as const;

/** Decides every case that lies there, up to the end of one person's turn. */
function decideAll(review: Review): void {
	cases.forEach(() => {
		review.decide(blank);
		review.next();
	});
}

describe('a round at the review table', () => {
	test('shows the rule only after a decision, and takes one decision a case', () => {
		const review = new Review({ mode: 'one', rulebook: 'demo-county', cases });
		review.next();
		expect([review.phase, review.current]).toEqual(['deciding', 'a']);
		review.decide(blank);
		review.decide({ outcome: 'refer' });
		expect([review.phase, review.current]).toEqual(['shown', 'a']);
		expect(review.decisionsOf('A')).toEqual([{ case: 'a', decision: blank }]);
		review.next();
		expect([review.phase, review.current, review.isLast]).toEqual(['deciding', 'b', true]);
	});

	test('ends for one person, who may still be joined by a second', () => {
		const review = new Review({ mode: 'one', rulebook: 'demo-county', cases });
		decideAll(review);
		expect([review.phase, review.persons, review.isNamed]).toEqual(['finished', ['A'], false]);
		review.startSecond();
		expect([review.phase, review.person, review.current, review.isNamed]).toEqual(['deciding', 'B', 'a', true]);
		decideAll(review);
		expect([review.phase, review.persons]).toEqual(['finished', ['A', 'B']]);
		review.startSecond();
		expect(review.phase).toBe('finished');
	});

	test('waits for the second person between two', () => {
		const review = new Review({ mode: 'two', rulebook: 'demo-county', cases });
		review.startSecond();
		expect(review.person).toBe('A');
		decideAll(review);
		expect([review.phase, review.person]).toEqual(['handover', 'A']);
		review.startSecond();
		decideAll(review);
		expect(review.phase).toBe('finished');
	});

	test('takes the first person’s decisions from a file, and refuses a file that lacks one', () => {
		const first = cases.map((id) => ({ case: id, decision: blank }));
		const review = new Review({ mode: 'file', rulebook: 'demo-county', cases, first });
		expect([review.person, review.phase, review.persons]).toEqual(['B', 'deciding', ['A']]);
		decideAll(review);
		expect(review.persons).toEqual(['A', 'B']);
		expect(() => new Review({ mode: 'file', rulebook: 'demo-county', cases, first: first.slice(1) })).toThrow(
			/first decision on 2 cases, got 1/
		);
		expect(() => new Review({ mode: 'one', rulebook: 'demo-county', cases: [] })).toThrow(/at least one case/);
	});
});

describe('a round of the quiz', () => {
	const questions = ['x', 'y'].map((answer) => ({ phrase: answer, answer, options: ['x', 'y', 'z', 'w'] }));

	test('takes one of the answers offered, once, and lists what was missed', () => {
		const quiz = new Quiz(questions, 'en');
		quiz.pick('none of these');
		expect(quiz.isShown).toBe(false);
		quiz.pick('x');
		quiz.pick('z');
		expect([quiz.picked, quiz.current?.answer]).toEqual(['x', 'x']);
		quiz.next();
		quiz.pick('z');
		expect([quiz.at, quiz.isFinished]).toEqual([1, false]);
		quiz.next();
		expect([quiz.isFinished, quiz.missed.map(({ answer }) => answer)]).toEqual([true, ['y']]);
	});

	test('needs a question', () => {
		expect(() => new Quiz([], 'en')).toThrow(/at least one question/);
	});
});
