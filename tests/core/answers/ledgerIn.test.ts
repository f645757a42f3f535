import { expect, test } from 'vitest';
import { answerOn } from '$core/answers/answerOn';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import { ledgerIn } from '$core/answers/ledger';
import { OFTEN_ASKED } from '$core/answers/oftenAsked';
import { QUESTIONS } from '$core/answers/questions';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json' with { type: 'json' };

const rulebook = demoCounty as unknown as Rulebook;

test.each(['en', 'es'])('a ledger in one language gives the same answers as the whole file: %s', (language) => {
	const ledger = ledgerIn(language, county, rulebook);
	for (const now of ['2027-08-01T00:00:00Z', '2027-09-08T00:00:00Z', '2027-09-29T00:00:00Z'].map(Date.parse))
		for (const [i, answer] of county.answers.entries())
			expect(answerOn(ledger, ledger.answers[i]!, now, language)).toEqual(answerOn(county, answer, now, language));
});

test('a ledger in one language carries no word of another and nothing of the ballot', () => {
	const text = JSON.stringify(ledgerIn('en', county, rulebook));
	expect(text).not.toContain('"es"');
	expect(text).not.toContain('boleta');
	expect(text).not.toContain(county.contests[1]!.choices[0]!.id);
});

test('a ledger names its rules and who approved it in its own language', () => {
	const cited = (language: string): readonly string[] => {
		const { answers, clauses } = ledgerIn(language, county, rulebook);
		return [...new Set([...answers, ...clauses].map(({ cite }) => cite.split(' ')[0] ?? ''))].sort();
	};
	expect(cited('en')).toEqual(['Demo']);
	expect(cited('es')).toEqual(['Norma', 'Regla']);
	for (const [language, role] of [
		['en', /^Ballot supervisor/],
		['es', /^Supervisión de boletas/]
	] as const)
		for (const { approvedBy } of ledgerIn(language, county, rulebook).answers) expect(approvedBy).toMatch(role);
});

test('a ledger holds every clause that its answers name, and no other', () => {
	const { answers, clauses } = ledgerIn('es', county, rulebook);
	expect(clauses.map(({ id }) => id).sort()).toEqual([...new Set(answers.flatMap((a) => a.clauses ?? []))].sort());
});

test('a text that lacks the language keeps what it has', () => {
	const [first, ...rest] = county.answers;
	const election = { ...county, answers: [{ ...first!, title: { es: '¿Qué bolígrafo?' } }, ...rest] };
	expect(ledgerIn('en', election, rulebook).answers[0]?.title).toEqual({ es: '¿Qué bolígrafo?' });
});

test('the questions often asked are twenty, each once, and each has an answer', () => {
	expect(new Set(OFTEN_ASKED).size).toBe(20);
	for (const number of OFTEN_ASKED) {
		expect(QUESTIONS.some((question) => question.number === number)).toBe(true);
		expect(county.answers.some(({ questions }) => questions.includes(number))).toBe(true);
	}
});
