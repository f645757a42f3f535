import { describe, expect, test } from 'vitest';
import { countyWithAnswers } from '$core/answers/demoCounty';
import { fairhand, fileWith } from './run';

interface Line {
	readonly id: string;
	readonly questions: readonly number[];
	readonly score: number;
	readonly title: string;
	readonly text: string;
	readonly status: string;
}

const ask = (...args: string[]): Line[] => fairhand('answers', ...args).lines.map((line) => JSON.parse(line) as Line);

describe('fairhand answers', () => {
	test('prints the answers that fit, best first, as JSON lines', () => {
		const lines = ask('spilled', 'coffe', 'on', 'it');
		expect(lines[0]).toMatchObject({ id: 'stained-or-wet', questions: [38, 40], status: 'approved' });
		expect(lines.length).toBeGreaterThan(1);
		const scores = lines.map(({ score }) => score);
		expect(scores).toEqual([...scores].sort((a, b) => b - a));
	});

	test('answers in Spanish, whatever the accents', () => {
		const [first] = ask('me equivoque de bolita', '--lang', 'es');
		expect(first).toMatchObject({ id: 'wrong-oval', title: 'Rellené el óvalo equivocado. ¿Qué hago?' });
	});

	test('gives the words of the day that is asked for', () => {
		const [before] = ask('I need a new ballot', '--on', '2027-09-06');
		const [after] = ask('I need a new ballot', '--on', '2027-09-06T17:00');
		expect(before).toMatchObject({ id: 'replacement' });
		expect(before?.text).toContain('we can mail you a new one: call 555-0142');
		expect(after?.text).toContain('too late now to mail you a new one');
	});

	test('sends the voter to the office where an answer is open', () => {
		const answers = countyWithAnswers.answers.map((answer) =>
			answer.id === 'wrong-oval' ? { ...answer, text: { en: '', es: '' } } : answer
		);
		const file = fileWith('open.json', { ...countyWithAnswers, answers });
		expect(ask('wrong buble', '--election', file)[0]).toMatchObject({
			id: 'wrong-oval',
			status: 'open',
			text: 'Please ask the office: 555-0142.'
		});
	});

	test('refuses what it cannot use', () => {
		expect(fairhand('answers').code).toBe(2);
		for (const option of [
			['--lang', 'tlh'],
			['--on', '2027-02-30'],
			['--on', 'tomorrow']
		]) {
			const { code, lines, errors } = fairhand('answers', 'pen', ...option);
			expect([code, lines, errors.length]).toEqual([1, [], 1]);
		}
	});
}, 60_000);
