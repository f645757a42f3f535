import { describe, expect, test } from 'vitest';
import { answerOn, type Paragraph } from '$core/answers/answerOn';
import { atStage, differsByStage, type AnswerAtStage } from '$core/answers/atStage';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import type { Answer, Stage } from '$core/election/election';

const NOW = Date.parse('2027-08-30T15:00:00Z');
const answer = (id: string): Answer => county.answers.find((entry) => entry.id === id)!;
const paragraphsOf = (id: string): readonly Paragraph[] => answerOn(county, answer(id), NOW, 'en').paragraphs;
const at = (id: string, stage?: Stage): AnswerAtStage => atStage(answer(id), paragraphsOf(id), stage, county.answers);
const said = ({ paragraphs }: AnswerAtStage): string => paragraphs.map(({ text }) => text).join('\n');

describe('an answer where the ballot is', () => {
	test('is all of it while nobody has said where', () => {
		for (const { id } of county.answers) expect(at(id)).toEqual({ paragraphs: paragraphsOf(id) });
	});

	test('leaves out what helps only elsewhere', () => {
		expect(said(at('pencil', 'holding'))).toContain('go over each mark');
		expect(said(at('pencil', 'holding'))).not.toContain('If you have sent it');
		expect(said(at('pencil', 'mailed'))).toContain('If you have sent it');
		expect(said(at('pencil', 'mailed'))).not.toContain('go over each mark');
	});

	test('leads on to the answer for a voting place, or for a ballot on its way, where its own words are not for there', () => {
		expect(at('cross-out', 'polling-place')).toMatchObject({ see: 'at-polls' });
		expect(said(at('cross-out', 'polling-place'))).not.toContain('call 555-0142');
		expect(at('erase', 'mailed')).toMatchObject({ see: 'already-mailed' });
		expect(at('pencil', 'mailed').see).toBeUndefined();
		expect(at('wrong-oval', 'polling-place').see).toBeUndefined();
		expect(at('wrong-oval', 'holding').see).toBeUndefined();
		expect(at('at-polls', 'polling-place').see).toBeUndefined();
	});

	test('keeps its calm first sentence, and never leaves a voter without a word, at any stage', () => {
		for (const { id } of county.answers)
			for (const stage of ['holding', 'polling-place', 'mailed'] as const)
				expect([id, stage, at(id, stage).paragraphs[0]]).toEqual([id, stage, paragraphsOf(id)[0]]);
	});

	test('never offers a new ballot by mail to a voter at a voting place or to one who has sent it', () => {
		for (const { id } of county.answers)
			for (const stage of ['polling-place', 'mailed'] as const)
				expect([id, stage, said(at(id, stage)).includes('we can mail you a new one')]).toEqual([id, stage, false]);
	});

	test('is asked for only where it makes a difference', () => {
		expect(differsByStage(answer('pencil'))).toBe(true);
		expect(differsByStage(answer('erase'))).toBe(true);
		expect(differsByStage(answer('real-office'))).toBe(false);
	});
});

describe('the parts of the demo county’s answers', () => {
	test('say of every paragraph what it speaks of, and the first of all is plain', () => {
		for (const { id, parts } of county.answers) expect([id, parts?.[0]]).toEqual([id, { about: 'plain' }]);
	});

	test('have no clause in what a machine sees: a rule is for people', () => {
		for (const { id } of county.answers)
			for (const { about, text } of paragraphsOf(id))
				if (about === 'machine') expect([id, /\(demo rule/.test(text)]).toEqual([id, false]);
	});
});
