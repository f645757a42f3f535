import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countyWithAnswers } from '$core/answers/demoCounty';
import { nearestWord } from '../../../src/lib/answers/nearestWord';
import { openSearch, type Search } from '../../../src/lib/answers/search';
import { measurePhrasings, PHRASINGS } from '../../core/answers/measurePhrasings';

const { answers } = countyWithAnswers;
const searches: Readonly<Record<'en' | 'es', Search>> = {
	en: openSearch(answers, 'en'),
	es: openSearch(answers, 'es')
};

describe.each(['en', 'es'] as const)('the search in callers’ words: %s', (language) => {
	const search = searches[language];

	test('has at least 200 phrasings to be measured by, every question among them', () => {
		const asked = PHRASINGS[language].map(({ asked }) => asked);
		expect(new Set(asked).size).toBeGreaterThanOrEqual(200);
		expect(asked.length).toBe(new Set(asked).size);
		for (const set of ['tuning', 'held out']) {
			const questions = PHRASINGS[language].filter((phrasing) => phrasing.set === set).map(({ question }) => question);
			expect(new Set(questions).size).toBe(97);
		}
	});

	test('is measured by phrasings that the ledger does not hold', () => {
		const held = new Set(
			answers.flatMap(({ callersWords }) => callersWords[language] ?? []).map((line) => line.toLowerCase())
		);
		for (const { set, asked } of PHRASINGS[language])
			if (set === 'held out') expect([asked, held.has(asked.toLowerCase())]).toEqual([asked, false]);
	});

	test('repeats no word of the title in a third of them', () => {
		const long = (text: string): string[] => text.toLowerCase().match(/\p{L}{4,}/gu) ?? [];
		const fresh = PHRASINGS[language].filter(({ question, asked }) => {
			const answer = answers.find(({ questions }) => questions.includes(question));
			const title = new Set(long(answer?.title[language] ?? '').filter((word) => !COMMON.has(word)));
			return long(asked).every((word) => !title.has(word));
		});
		expect(fresh.length / PHRASINGS[language].length).toBeGreaterThanOrEqual(1 / 3);
	});

	test('puts the right answer first in 85 % and among the first three in 97 %', () => {
		for (const { part, phrasings, first, firstThree } of measurePhrasings(search, language)) {
			expect([part, first / phrasings >= 0.85]).toEqual([part, true]);
			expect([part, firstThree / phrasings >= 0.97]).toEqual([part, true]);
		}
	});

	test('finds every answer by its own title', () => {
		for (const { id, title } of answers) expect(search(title[language] ?? '')[0]?.id).toBe(id);
	});

	test('does not mind accents, capitals or marks', () => {
		for (const { asked } of PHRASINGS[language].slice(0, 60)) {
			const bare = asked
				.normalize('NFD')
				.replace(/[\u0300-\u036f]/g, '')
				.toUpperCase();
			// "sí" is yes and "si" is if: the one accent that is kept apart by what stands around it, not by itself.
			expect(search(bare).map(({ id }) => id)).toEqual(search(asked).map(({ id }) => id));
		}
	});

	test('never throws, whatever is typed, and lists each answer once, best first', () => {
		const ids = new Set(answers.map(({ id }) => id));
		fc.assert(
			fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), (query) => {
				const found = search(query);
				expect(new Set(found.map(({ id }) => id)).size).toBe(found.length);
				for (const [i, { id, score }] of found.entries()) {
					expect(ids.has(id)).toBe(true);
					expect(score).toBeGreaterThan(0);
					expect(score).toBeLessThanOrEqual(found[i - 1]?.score ?? Infinity);
				}
			}),
			{ numRuns: 200, seed: 20270914 }
		);
	});

	test('finds nothing for nothing', () => {
		for (const query of ['', '   ', '¿?', '…']) expect(search(query)).toEqual([]);
	});
});

/** Words of titles that are about the ballot at large: they name no question. */
const COMMON = new Set([
	'ballot',
	'boleta',
	'with',
	'para',
	'vote',
	'have',
	'what',
	'does',
	'someone',
	'marked',
	'puedo',
	'mine'
]);

test('slips that the search must forgive', () => {
	for (const [language, query, id] of [
		['en', 'coffe', 'stained-or-wet'],
		['en', 'wrong buble', 'wrong-oval'],
		['en', 'pensil', 'pencil'],
		['en', 'recieved my ballot?', 'received'],
		['es', 'me equivoqué', 'wrong-oval'],
		['es', 'me ekivoque de bolita', 'wrong-oval'],
		['es', 'olbide firmar', 'not-signed']
	] as const)
		expect([query, searches[language](query)[0]?.id]).toEqual([query, id]);
});

/** Words cut short, and the answer that the whole word finds. */
const PIECES: Readonly<Record<string, string>> = { testig: 'witness', notaria: 'witness', certifica: 'flap-torn' };

test('an answer is found while its word is still being typed', () => {
	for (const piece of ['highl', 'highlig', 'highlighter']) expect(searches.en(piece)[0]?.id).toBe('odd-pens');
	for (const [piece, id] of Object.entries(PIECES)) expect([piece, searches.es(piece)[0]?.id]).toEqual([piece, id]);
});

test('a language without a word list is searched all the same', () => {
	const french = answers.slice(0, 3).map((answer) => ({
		...answer,
		title: { fr: 'Quel stylo ?' },
		callersWords: { fr: [answer.id === 'pencil' ? 'un crayon' : 'un stylo noir'] }
	}));
	expect(openSearch(french, 'fr')('crayon')[0]?.id).toBe('pencil');
});

describe('the nearest word', () => {
	const known = ['coffee', 'envelope', 'pencil', 'signature', 'wrong'];

	test('is found through one slip of any kind', () => {
		for (const slip of ['cofee', 'cofffee', 'coffwe', 'cofefe', 'voffee', 'coffe'])
			expect([slip, nearestWord(slip, known)]).toEqual([slip, 'coffee']);
	});

	test('is found through two only in a long word', () => {
		expect(nearestWord('signatuer', known)).toBe('signature');
		expect(nearestWord('sgnatuer', known)).toBe('signature');
		expect(nearestWord('wonr', known)).toBeUndefined();
		expect(nearestWord('pncl', known)).toBeUndefined();
	});

	test('is the word itself where it is known', () => {
		for (const word of known) expect(nearestWord(word, known)).toBe(word);
	});
});
