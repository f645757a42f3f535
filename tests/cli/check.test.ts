import { describe, expect, test } from 'vitest';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import type { Answer, Election } from '$core/election/election';
import { fairhand, fileWith } from './run';

interface Line {
	readonly path: string;
	readonly severity: string;
	readonly message: string;
}

const check = (election: Election): { code: number; lines: Line[] } => {
	const { code, lines } = fairhand('check', fileWith('election.json', election));
	return { code, lines: lines.map((line) => JSON.parse(line) as Line) };
};
const withAnswer = (id: string, change: Partial<Answer>): Election => ({
	...county,
	answers: county.answers.map((answer) => (answer.id === id ? { ...answer, ...change } : answer))
});

describe('fairhand check', () => {
	test('has nothing to say of a file whose answers are all there', () => {
		expect(check(county)).toEqual({ code: 0, lines: [] });
	});

	test('holds a file back whose answer is blank where offices say the opposite, and says whom to ask', () => {
		const { code, lines } = check(withAnswer('wrong-oval', { text: { en: '', es: '' } }));
		expect(code).toBe(0);
		expect(lines).toEqual([expect.objectContaining({ path: 'answers[15].text', severity: 'unpublishable' })]);
		expect(lines[0]?.message).toContain('there is no default');
	});

	test('holds it back too where nobody approved the answer, or it is not there', () => {
		expect(
			check(withAnswer('wrong-oval', { approvedBy: '' })).lines.map(({ path, severity }) => [path, severity])
		).toEqual([['answers[15].approvedBy', 'unpublishable']]);
		const without = { ...county, answers: county.answers.filter(({ id }) => id !== 'wrong-oval') };
		expect(check(without).lines).toEqual([expect.objectContaining({ path: 'answers', severity: 'unpublishable' })]);
	});
});
