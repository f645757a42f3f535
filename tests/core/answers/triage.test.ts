import { describe, expect, test } from 'vitest';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import { OFTEN_ASKED } from '$core/answers/oftenAsked';
import { otherWay } from '$core/answers/otherWay';
import { chosenBy, triage } from '$core/answers/triage';
import type { Stage } from '$core/election/election';

const { answers } = county;
const START: Readonly<Record<Stage, readonly string[]>> = {
	holding: ['with-me', 'home'],
	'polling-place': ['with-me', 'polling-place'],
	mailed: ['sent']
};

describe('triage', () => {
	test('asks whether the ballot is with the caller, then where the caller is, then what happened', () => {
		expect(triage(answers, [])).toMatchObject({ step: 'keeping', options: [{ key: '1' }, { key: '2' }, { key: '3' }] });
		expect(triage(answers, ['with-me']).step).toBe('place');
		expect(triage(answers, ['with-me', 'home'])).toMatchObject({ step: 'kind', stage: 'holding' });
		expect(triage(answers, ['sent'])).toMatchObject({ step: 'kind', stage: 'mailed' });
		expect(triage(answers, ['none'])).toMatchObject({ step: 'kind' });
		expect(triage(answers, ['none']).stage).toBeUndefined();
	});

	test('offers at each stage every answer that is for it, and no other', () => {
		for (const stage of ['holding', 'polling-place', 'mailed'] as const) {
			const reached = triage(answers, START[stage]).options.flatMap(({ id: kind }) => {
				const { step, options, answer } = triage(answers, [...START[stage], kind]);
				return step === 'done' ? [answer] : options.map(({ id }) => id);
			});
			const fitting = answers.filter(({ stages }) => stages.includes(stage)).map(({ id }) => id);
			expect(reached.sort()).toEqual(fitting.sort());
		}
	});

	test('offers every answer to a caller without a ballot', () => {
		const reached = triage(answers, ['none']).options.flatMap(({ id }) =>
			triage(answers, ['none', id]).options.map((option) => option.id)
		);
		expect(reached.sort()).toEqual(answers.map(({ id }) => id).sort());
	});

	test('goes past a kind with one answer', () => {
		const few = answers.filter(({ kind, id }) => kind !== 'replacement' || id === 'replacement');
		expect(triage(few, ['with-me', 'home', 'replacement'])).toMatchObject({ step: 'done', answer: 'replacement' });
	});

	test('gives each option a key of its own', () => {
		for (const path of [[], ['with-me'], ['with-me', 'home'], ['none'], ['none', 'envelope']]) {
			const at = triage(answers, path);
			expect(new Set(at.options.map(({ key }) => key)).size).toBe(at.options.length);
			for (const { key, id } of at.options) expect(chosenBy(at, key.toUpperCase())).toBe(id);
			expect(chosenBy(at, '0')).toBeUndefined();
		}
	});

	test('leads to each of the questions most asked in four keys', () => {
		for (const number of OFTEN_ASKED) {
			const answer = answers.find(({ questions }) => questions.includes(number))!;
			const start = START[answer.stages[0]!];
			expect(triage(answers, [...start, answer.kind, answer.id])).toMatchObject({ step: 'done', answer: answer.id });
			expect(start.length + 2).toBeLessThanOrEqual(4);
		}
	});

	test('refuses a step that was not offered, and says what was', () => {
		expect(() => triage(answers, ['with-me', 'moon'])).toThrow(
			'triage: expected one of home, polling-place, got "moon"'
		);
	});

	test('refuses more answers of a kind than there are keys', () => {
		const many = Array.from({ length: 36 }, (_, i) => ({ ...answers[0]!, id: `a${i}`, kind: 'pen' as const }));
		expect(() => triage(many, ['with-me', 'home', 'pen'])).toThrow('expected at most 35');
	});
});

describe('the other way', () => {
	const way = (id: string, stage?: Stage): string | undefined => otherWay(answers, { id }, stage)?.id;

	test('is a new ballot at home, one on the spot at the polls, and the truth after mailing', () => {
		expect(way('cross-out', 'holding')).toBe('replacement');
		expect(way('cross-out')).toBe('replacement');
		expect(way('cross-out', 'polling-place')).toBe('at-polls');
		expect(way('pencil', 'mailed')).toBe('already-mailed');
	});

	test('is not offered beside itself, or where a ledger has none', () => {
		expect(way('replacement', 'holding')).toBeUndefined();
		expect(otherWay([], { id: 'pencil' }, 'holding')).toBeUndefined();
	});
});
