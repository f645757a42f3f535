import { describe, expect, test } from 'vitest';
import { officeTexts } from '$core/advice/officeTexts';
import { countyWithAnswers } from '$core/answers/demoCounty';
import { sayOn } from '$core/election/sayOn';
import { endOf } from '$core/election/dates';
import { county, fair } from '$core/election/demo';
import type { Stage } from '$core/election/election';

const MAIL_ENDS = endOf(county, 'replacement.mail')!;
const IN_PERSON_ENDS = endOf(county, 'replacement.in-person')!;
const CURE_ENDS = endOf(county, 'cure')!;

const said = (stage: Stage, nowUtcMs: number, language = 'en', election = county): string =>
	officeTexts(election, `instructions.correction.steps.${stage}`, nowUtcMs, language).join(' ');

describe('the office’s own steps', () => {
	test('name the last day of each way to a new ballot, and drop the one that is over, to the minute', () => {
		expect(said('holding', MAIL_ENDS - 1)).toMatch(/call 555-0142 until Monday, September 6, 5 PM/);
		expect(said('holding', MAIL_ENDS)).toMatch(/too late now to mail/);
		expect(said('holding', MAIL_ENDS)).toMatch(/come to our office .* until Tuesday, September 14, 7 PM/i);
		expect(said('holding', IN_PERSON_ENDS - 1)).toMatch(/come to our office/i);
		expect(said('holding', IN_PERSON_ENDS)).toMatch(/time to get a new ballot is over/);
		expect(said('holding', IN_PERSON_ENDS)).not.toMatch(/come to our office/i);
	});

	test('do so in Spanish', () => {
		expect(said('holding', MAIL_ENDS - 1, 'es')).toMatch(/hasta el lunes, 6 de septiembre/);
		expect(said('holding', MAIL_ENDS, 'es')).toMatch(/Ya es tarde/);
		expect(said('holding', IN_PERSON_ENDS, 'es')).toMatch(/plazo para recibir otra boleta terminó/);
	});

	test('say of a mailed ballot until when its envelope can be put right', () => {
		expect(said('mailed', CURE_ENDS - 1)).toMatch(/You can fix that until Tuesday, September 28/);
		expect(said('mailed', CURE_ENDS)).toMatch(/last day to fix an envelope was/);
	});

	test('are the words of the answers: what is said of crossing out there is said here', () => {
		for (const nowUtcMs of [0, MAIL_ENDS, CURE_ENDS])
			expect(said('holding', nowUtcMs)).toContain(sayOn(countyWithAnswers, '{{say:cross-out}}', nowUtcMs, 'en'));
	});

	test('leave no brace to a voter, in any demo file, language, stage or week', () => {
		for (const election of [county, fair])
			for (const nowUtcMs of [0, MAIL_ENDS, IN_PERSON_ENDS, CURE_ENDS])
				for (const stage of ['holding', 'polling-place', 'mailed'] as const)
					for (const language of election.languages) {
						expect(said(stage, nowUtcMs, language, election)).not.toBe('');
						expect(said(stage, nowUtcMs, language, election)).not.toMatch(/[{}]|\.\./);
					}
	});

	test('are none where the office wrote none, or the path leads nowhere', () => {
		const steps = { ...county.instructions.correction.steps, holding: [] };
		const correction = { ...county.instructions.correction, steps };
		const open = { ...county, instructions: { ...county.instructions, correction } };
		expect(said('holding', 0, 'en', open)).toBe('');
		expect(officeTexts(county, 'instructions.constructor.name', 0, 'en')).toEqual([]);
	});
});
