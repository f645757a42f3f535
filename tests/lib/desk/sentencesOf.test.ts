import { expect, test } from 'vitest';
import { answerOn } from '$core/answers/answerOn';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import { sentencesOf } from '$lib/desk/sentencesOf';

test('a text is parted into its sentences', () => {
	expect(sentencesOf('Stop. Is it here? Call 555-0142.', 'en')).toEqual(['Stop.', 'Is it here?', 'Call 555-0142.']);
	expect(sentencesOf('', 'en')).toEqual([]);
});

test('an hour in Spanish ends no sentence in its middle', () => {
	expect(sentencesOf('Venga hasta el martes, 14 de septiembre, 7 p. m. Use la nueva.', 'es')).toEqual([
		'Venga hasta el martes, 14 de septiembre, 7 p. m.',
		'Use la nueva.'
	]);
});

test.each(['en', 'es'])(
	'every answer is read in lines that begin like sentences, and loses no word: %s',
	(language) => {
		const now = Date.parse('2027-09-08T15:00:00Z');
		for (const answer of county.answers) {
			const { readAloud } = answerOn(county, answer, now, language);
			const lines = sentencesOf(readAloud, language);
			expect(lines.join(' ')).toBe(readAloud.replace(/\s+/g, ' ').trim());
			for (const line of lines)
				expect([answer.id, line]).toEqual([answer.id, expect.stringMatching(/^[¿¡«“]?[\p{Lu}\d]/u)]);
		}
	}
);
