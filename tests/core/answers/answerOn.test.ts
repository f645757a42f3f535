import { describe, expect, test } from 'vitest';
import { answerOn } from '$core/answers/answerOn';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import { instantFrom } from '$core/answers/instantFrom';
import { sayDate } from '$core/election/sayDate';
import type { Answer, Election } from '$core/election/election';

const MINUTE_MS = 60_000;
const utc = (instant: string): number => Date.parse(instant);
const answer = (id: string): Answer => county.answers.find((entry) => entry.id === id)!;
const say = (nowUtcMs: number, id = 'replacement', language = 'en', election: Election = county): string =>
	answerOn(election, answer(id), nowUtcMs, language).text;

// The demo county keeps Chicago's clock, which in September is five hours behind UTC (IANA tz database).
const MAIL_ENDS = utc('2027-09-06T22:00:00Z');
const IN_PERSON_ENDS = utc('2027-09-15T00:00:00Z');
const RETURN_ENDS = utc('2027-09-15T01:00:00Z');
const CURE_ENDS = utc('2027-09-28T21:30:00Z');

describe('an answer on a day', () => {
	test('names the channel that is open, and the next when a cut-off has passed, to the minute', () => {
		expect(say(MAIL_ENDS - 1)).toContain('we can mail you a new one');
		expect(say(MAIL_ENDS)).toContain('too late now to mail you a new one');
		expect(say(IN_PERSON_ENDS - 1)).toContain('come to our office until Tuesday, September 14, 7 PM');
		expect(say(IN_PERSON_ENDS)).toContain('The time to get a new ballot is over');
	});

	test('does so in both languages and in both forms', () => {
		for (const [language, early, late] of [
			['en', /we can mail you a new one/i, /too late (now )?to mail/],
			['es', /le podemos enviar otra/i, /Ya es tarde para enviarle otra/]
		] as const) {
			const before = answerOn(county, answer('replacement'), MAIL_ENDS - 1, language);
			const after = answerOn(county, answer('replacement'), MAIL_ENDS, language);
			for (const form of ['text', 'readAloud'] as const) {
				expect(before[form]).toMatch(early);
				expect(after[form]).toMatch(late);
			}
		}
	});

	test('goes by the office’s midnight, not by that of UTC or of the voter', () => {
		// At 00:30 UTC on the 7th it is still the evening of the 6th in the office.
		const wholeDay: Election = {
			...county,
			dates: county.dates.map(({ time, ...date }) =>
				date.id === 'replacement.mail' || !time ? date : { ...date, time }
			)
		};
		expect(say(utc('2027-09-07T04:59:59Z'), 'replacement', 'en', wholeDay)).toContain('we can mail you');
		expect(say(utc('2027-09-07T05:00:00Z'), 'replacement', 'en', wholeDay)).toContain('too late now to mail');
	});

	test('keeps to the clock through a change to or from daylight saving', () => {
		// In Chicago clocks went forward on 14 March 2027 and go back on 7 November 2027, at 2 in the morning.
		for (const [date, offsetDays, end] of [
			['2027-03-14', 0, '2027-03-15T05:00:00Z'],
			['2027-03-14', -1, '2027-03-14T06:00:00Z'],
			['2027-11-07', 0, '2027-11-08T06:00:00Z'],
			['2027-11-07', -1, '2027-11-07T05:00:00Z']
		] as const) {
			const [mail] = county.dates.filter(({ id }) => id === 'replacement.mail');
			const { time, ...rest } = mail!;
			expect(time).toBe('17:00');
			const election: Election = {
				...county,
				date,
				dates: [
					{ ...rest, offsetDays },
					...county.dates.filter(({ id }) => id !== 'replacement.mail').map((other) => ({ ...other, offsetDays: 30 }))
				]
			};
			expect(say(utc(end) - 1, 'replacement', 'en', election)).toContain('we can mail you');
			expect(say(utc(end), 'replacement', 'en', election)).toContain('too late now to mail');
		}
	});

	test('tells when its words change next, and they change at that instant and not before', () => {
		let now = utc('2027-08-01T12:00:00Z');
		const changes: number[] = [];
		for (;;) {
			const next = answerOn(county, answer('replacement'), now, 'en').changesAtUtcMs;
			if (next === undefined) break;
			expect(say(next - 1)).toBe(say(now));
			expect(say(next)).not.toBe(say(next - 1));
			changes.push(next);
			now = next;
		}
		expect(changes).toEqual([MAIL_ENDS, IN_PERSON_ENDS, RETURN_ENDS]);
	});

	test('ends a sentence with one stop, though an hour has its own', () => {
		expect(answerOn(county, answer('not-signed'), CURE_ENDS - 1, 'es').readAloud).toMatch(/[^.]\.$/);
		expect(say(CURE_ENDS, 'not-signed', 'es')).not.toContain('..');
	});

	test('leaves no braces in any answer, on any day', () => {
		for (const now of [utc('2027-08-01T00:00:00Z'), MAIL_ENDS, IN_PERSON_ENDS, RETURN_ENDS, CURE_ENDS])
			for (const entry of county.answers)
				for (const language of county.languages) {
					const { text, readAloud, status } = answerOn(county, entry, now, language);
					expect([entry.id, status, /[{}]/.test(text + readAloud)]).toEqual([entry.id, 'approved', false]);
				}
	});

	test('is given from the first to the last of its days, both included, by the office’s clock', () => {
		const dated: Answer = { ...answer('which-pen'), validFrom: '2027-09-01', validTo: '2027-09-14' };
		const status = (now: number): string => answerOn(county, dated, now, 'en').status;
		expect(status(utc('2027-09-01T05:00:00Z') - 1)).toBe('early');
		expect(status(utc('2027-09-01T05:00:00Z'))).toBe('approved');
		expect(status(utc('2027-09-15T05:00:00Z') - 1)).toBe('approved');
		expect(status(utc('2027-09-15T05:00:00Z'))).toBe('ended');
		expect(answerOn(county, dated, utc('2027-09-10T00:00:00Z'), 'en').changesAtUtcMs).toBe(utc('2027-09-15T05:00:00Z'));
	});

	test('is never guessed: with no words, no approver or no cite it sends the voter to the office', () => {
		const open: readonly Partial<Answer>[] = [
			{ text: { en: '', es: ' ' } },
			{ readAloud: { en: '', es: '' } },
			{ approvedBy: ' ' },
			{ cite: '' }
		];
		for (const change of open) {
			const now = answerOn(county, { ...answer('wrong-oval'), ...change }, MAIL_ENDS, 'es');
			expect(now).toMatchObject({ status: 'open', text: 'Pregunte a la oficina: 555-0142.' });
			expect(now.readAloud).toBe(now.text);
		}
		const bare = answerOn({ ...county, passages: [] }, { ...answer('wrong-oval'), cite: '' }, MAIL_ENDS, 'en');
		expect(bare.text).toBe('Wrenmoor County Elections Office: 555-0142');
	});

	test('cannot be made to run for ever by a passage that says itself', () => {
		const passages = [{ id: 'return', text: { en: '{{say:return}}', es: '{{say:return}}' } }];
		expect(answerOn({ ...county, passages }, answer('postage'), MAIL_ENDS, 'en').text).toContain('{{say:return}}');
	});
});

describe('a day set by hand', () => {
	test('begins at the office’s midnight', () => {
		expect(instantFrom('2027-09-06', 'America/Chicago')).toBe(utc('2027-09-06T05:00:00Z'));
		expect(instantFrom('2027-12-06', 'America/Chicago')).toBe(utc('2027-12-06T06:00:00Z'));
		expect(instantFrom('2027-09-06T17:00', 'America/Chicago')).toBe(MAIL_ENDS);
	});

	test('is refused where no calendar or clock has it', () => {
		for (const when of ['', '2027-02-29', '2027-9-6', '2027-09-06T24:00', '06/09/2027', '2027-09-06T17:00Z'])
			expect(instantFrom(when, 'America/Chicago')).toBeUndefined();
	});
});

describe('a date that is said', () => {
	test('has its weekday and hour in the language', () => {
		expect(sayDate({ date: '2027-09-06', time: '17:00' }, 'en')).toBe('Monday, September 6, 5 PM');
		expect(sayDate({ date: '2027-09-28', time: '16:30' }, 'en')).toBe('Tuesday, September 28, 4:30 PM');
		expect(sayDate({ date: '2027-09-14' }, 'es')).toBe('martes, 14 de septiembre');
		expect(sayDate({ date: '2027-09-14', time: '20:00' }, 'es')).toMatch(/^martes, 14 de septiembre, 8 ?p\. ?m\.$/);
	});

	test('is the same day in every zone of the reader', () => {
		const zone = process.env['TZ'];
		try {
			for (const reader of ['Pacific/Kiritimati', 'Pacific/Pago_Pago']) {
				process.env['TZ'] = reader;
				expect(sayDate({ date: '2027-09-06', time: '00:30' }, 'en')).toBe('Monday, September 6, 12:30 AM');
			}
		} finally {
			if (zone === undefined) delete process.env['TZ'];
			else process.env['TZ'] = zone;
		}
	});
});

test('the minute before a cut-off belongs to it', () => {
	expect(say(MAIL_ENDS - MINUTE_MS)).toBe(say(MAIL_ENDS - 1));
});
