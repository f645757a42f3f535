import { describe, expect, test } from 'vitest';
import { tooLate } from '$core/advice/tooLate';
import { endOf } from '$core/election/dates';
import { county } from '$core/election/demo';
import type { CorrectionMethod, Election, ElectionDate } from '$core/election/election';
import { adviseOn } from './support';

const withMethod = (method: CorrectionMethod): Election => ({
	...county,
	instructions: { ...county.instructions, correction: { ...county.instructions.correction, method } }
});
const onlyNew = withMethod('replacement-only');
const without = (election: Election, ...ids: readonly ElectionDate['id'][]): Election => ({
	...election,
	dates: election.dates.filter(({ id }) => !ids.includes(id))
});

const MAIL_ENDS = endOf(county, 'replacement.mail')!;
const IN_PERSON_ENDS = endOf(county, 'replacement.in-person')!;
const RETURN_ENDS = endOf(county, 'return')!;

const [one, two] = county.contests.find(({ id }) => id === 'treasurer')!.choices.map(({ id }) => id);
const tooMany = adviseOn('treasurer', {
	levels: { [`treasurer/${one!}`]: 'dark', [`treasurer/${two!}`]: 'dark' },
	marks: [
		['treasurer', one, 'fill', 'in-target'],
		['treasurer', two, 'fill', 'in-target']
	]
}).advice;
const light = adviseOn('treasurer', {
	levels: { [`treasurer/${one!}`]: 'unsure' },
	marks: [['treasurer', one, 'fill', 'in-target']]
}).advice;
const calm = adviseOn('treasurer', {
	levels: { [`treasurer/${one!}`]: 'dark' },
	marks: [['treasurer', one, 'fill', 'in-target']]
}).advice;

describe('what is advised on a ballot in hand', () => {
	test('is never too late before the first date ends', () => {
		for (const stage of ['holding', 'polling-place', 'mailed'] as const)
			for (const advice of [tooMany, light, calm])
				expect(tooLate(advice, onlyNew, stage, MAIL_ENDS - 1)).toBeUndefined();
	});

	test('is too late once no ballot is taken any more, whatever it asks for', () => {
		for (const stage of ['holding', 'polling-place'] as const)
			for (const advice of [tooMany, light]) {
				expect(tooLate(advice, county, stage, RETURN_ENDS - 1)).toBeUndefined();
				expect(tooLate(advice, county, stage, RETURN_ENDS)).toEqual({
					ended: 'voting',
					date: { date: '2027-09-14', time: '20:00' }
				});
			}
	});

	test('is not too late where nothing is asked for, or the ballot is mailed', () => {
		expect(tooLate(calm, county, 'holding', RETURN_ENDS)).toBeUndefined();
		expect(tooLate(tooMany, county, 'mailed', RETURN_ENDS)).toBeUndefined();
	});

	test('is too late with the last way to a new ballot, where the office takes no cross-out', () => {
		expect(tooLate(tooMany, onlyNew, 'holding', IN_PERSON_ENDS - 1)).toBeUndefined();
		expect(tooLate(tooMany, onlyNew, 'holding', IN_PERSON_ENDS)).toEqual({
			ended: 'newBallot',
			date: { date: '2027-09-14', time: '19:00' }
		});
		const byMailOnly = without(onlyNew, 'replacement.in-person');
		expect(tooLate(tooMany, byMailOnly, 'holding', MAIL_ENDS)?.date).toEqual({ date: '2027-09-06', time: '17:00' });
	});

	test('is then still in time for more ink, at a polling place, and where a cross-out is taken', () => {
		expect(tooLate(light, onlyNew, 'holding', IN_PERSON_ENDS)).toBeUndefined();
		expect(tooLate(tooMany, onlyNew, 'polling-place', IN_PERSON_ENDS)).toBeUndefined();
		for (const method of ['cross-out-allowed', 'cross-out-preferred', 'cross-out-last-resort', 'undecided'] as const)
			expect(tooLate(tooMany, withMethod(method), 'holding', IN_PERSON_ENDS)).toBeUndefined();
	});

	test('has no end that the file does not give', () => {
		const open = without(onlyNew, 'replacement.mail', 'replacement.in-person', 'return');
		expect(tooLate(tooMany, open, 'holding', RETURN_ENDS)).toBeUndefined();
	});
});
