import { describe, expect, test } from 'vitest';
import { headline } from '$core/advice/headline';
import { peopleSay } from '$core/advice/peopleSay';
import { county } from '$core/election/demo';
import type { CorrectionMethod, Election } from '$core/election/election';
import { adviseOn, contestOf, keysAt, NO_LOOK, type Given } from './support';

const [ODESSA, TOBIAS, WRITE_IN] = ['treasurer/fenwright', 'treasurer/quillonby', 'treasurer/write-in'];

const withMethod = (method: CorrectionMethod): Election => ({
	...county,
	instructions: { ...county.instructions, correction: { ...county.instructions.correction, method } }
});
const withTarget = (target: Partial<Election['target']>): Election => ({
	...county,
	target: { ...county.target, ...target }
});

const headOf = (contest: string, given: Given) =>
	headline(adviseOn(contest, given), contestOf(given.election ?? county, contest));

describe('what a contest is said to need while the voter still has the ballot', () => {
	const cases: readonly [
		name: string,
		contest: string,
		given: Given,
		keys: readonly string[],
		tone: 'calm' | 'look'
	][] = [
		[
			'one filled oval needs nothing',
			'treasurer',
			{ levels: { [ODESSA]: 'dark' }, marks: [['treasurer', 'fenwright', 'fill', 'in-target']] },
			['nothing'],
			'calm'
		],
		['an empty contest may stay empty', 'treasurer', {}, ['blank'], 'calm'],
		[
			'one of two is fine, and one more is allowed',
			'commissioners',
			{ levels: { 'commissioners/birchmere': 'dark' } },
			['undervote'],
			'calm'
		],
		[
			'two filled in a vote for one is too many',
			'treasurer',
			{ levels: { [ODESSA]: 'dark', [TOBIAS]: 'dark' } },
			['overvote'],
			'look'
		],
		[
			'yes and no together is its own case',
			'measure-1',
			{ levels: { 'measure-1/yes': 'dark', 'measure-1/no': 'dark' } },
			['yesAndNo'],
			'look'
		],
		[
			'a name and a write-in together may be the same person',
			'treasurer',
			{ levels: { [ODESSA]: 'dark', [WRITE_IN]: 'dark' }, marks: [['treasurer', 'write-in', 'writing', 'write-in']] },
			['overvoteWriteIn', 'writeInRead'],
			'look'
		],
		[
			'a light mark is to be filled',
			'treasurer',
			{ levels: { [ODESSA]: 'unsure' }, marks: [['treasurer', 'fenwright', 'check', 'in-target']] },
			['light'],
			'look'
		],
		[
			'a mark too thin to be seen is to be filled',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'stroke', 'in-target']] },
			['faint'],
			'look'
		],
		[
			'a check that a machine reads is still not the mark asked for',
			'measure-1',
			{ levels: { 'measure-1/yes': 'dark' }, marks: [['measure-1', 'yes', 'check', 'in-target']] },
			['partial'],
			'look'
		],
		[
			'a ring around a name asks for the oval',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'ring', 'on-name']] },
			['ring'],
			'look'
		],
		[
			'an underlined name asks for the oval',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'underline', 'on-name']] },
			['underline'],
			'look'
		],
		[
			'a check beside the oval asks for the oval',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'check', 'beside-target']] },
			['beside'],
			'look'
		],
		[
			'the old arrow joined asks for the oval',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'join', 'after-name']] },
			['join'],
			'look'
		],
		[
			'a mark where the target stood last time is on the wrong side',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'fill', 'after-name']] },
			['wrongSide.left'],
			'look'
		],
		[
			'a dot between the thresholds may be read',
			'treasurer',
			{ levels: { [ODESSA]: 'unsure' }, marks: [['treasurer', 'fenwright', 'dot', 'in-target']] },
			['dot'],
			'look'
		],
		[
			'a dot in an empty oval is nothing',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'dot', 'in-target']] },
			['dotNear', 'blank'],
			'calm'
		],
		[
			'an erased mark that still shows may be read',
			'treasurer',
			{ levels: { [ODESSA]: 'unsure' }, marks: [['treasurer', 'fenwright', 'erasure', 'in-target']] },
			['erased'],
			'look'
		],
		[
			'an erased mark that does not show is nothing',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'erasure', 'in-target']] },
			['erasedClean', 'blank'],
			'calm'
		],
		[
			'a stain in an oval may be read',
			'treasurer',
			{ levels: { [ODESSA]: 'unsure' }, marks: [['treasurer', 'fenwright', 'stain', 'in-target']] },
			['stain'],
			'look'
		],
		[
			'a smudge in an oval may be read',
			'treasurer',
			{ levels: { [ODESSA]: 'dark' }, marks: [['treasurer', 'fenwright', 'smudge', 'in-target']] },
			['smudge'],
			'look'
		],
		[
			'a fold in an oval may be read',
			'treasurer',
			{ levels: { [ODESSA]: 'unsure' }, marks: [['treasurer', 'fenwright', 'fold', 'in-target']] },
			['fold'],
			'look'
		],
		[
			'a stain on a filled oval changes nothing',
			'treasurer',
			{
				levels: { [ODESSA]: 'dark' },
				marks: [
					['treasurer', 'fenwright', 'fill', 'in-target'],
					['treasurer', 'fenwright', 'stain', 'touching-target']
				]
			},
			['nothing'],
			'calm'
		],
		[
			'a stray mark by the title is calm',
			'treasurer',
			{ levels: { [ODESSA]: 'dark' }, marks: [['treasurer', undefined, 'stroke', 'heading']] },
			['stray'],
			'calm'
		],
		[
			'a ring around the choice that is filled is not needed',
			'treasurer',
			{
				levels: { [ODESSA]: 'dark' },
				marks: [
					['treasurer', 'fenwright', 'fill', 'in-target'],
					['treasurer', 'fenwright', 'ring', 'on-name']
				]
			},
			['emphasis'],
			'calm'
		],
		[
			'a ring around another name is not to be filled too',
			'treasurer',
			{ levels: { [ODESSA]: 'dark' }, marks: [['treasurer', 'quillonby', 'ring', 'on-name']] },
			['outsideTooMany'],
			'look'
		],
		[
			'a light mark beside a filled one may be too many',
			'treasurer',
			{ levels: { [ODESSA]: 'dark', [TOBIAS]: 'unsure' }, marks: [['treasurer', 'quillonby', 'stroke', 'in-target']] },
			['lightTooMany'],
			'look'
		],
		[
			'a written name needs its oval',
			'treasurer',
			{ marks: [['treasurer', 'write-in', 'writing', 'write-in']] },
			['writeInNoTarget'],
			'look'
		],
		[
			'a write-in oval needs a name',
			'treasurer',
			{ levels: { [WRITE_IN]: 'dark' }, marks: [['treasurer', 'write-in', 'fill', 'in-target']] },
			['writeInNoName'],
			'look'
		],
		[
			'a written name with its oval is read by a person',
			'treasurer',
			{
				levels: { [WRITE_IN]: 'dark' },
				marks: [
					['treasurer', 'write-in', 'fill', 'in-target'],
					['treasurer', 'write-in', 'writing', 'write-in']
				]
			},
			['writeInRead'],
			'calm'
		],
		[
			'a written name beside a filled choice is too many',
			'treasurer',
			{ levels: { [ODESSA]: 'dark' }, marks: [['treasurer', 'write-in', 'writing', 'write-in']] },
			['writeInTooMany'],
			'look'
		],
		[
			'a note on the ballot is named',
			'treasurer',
			{ levels: { [ODESSA]: 'dark' }, marks: [['treasurer', undefined, 'writing', 'heading']] },
			['note'],
			'look'
		],
		[
			'a crossed-out mark with another filled goes the office’s way',
			'treasurer',
			{ levels: { [ODESSA]: 'dark', [TOBIAS]: 'dark' }, marks: [['treasurer', 'fenwright', 'strike', 'on-name']] },
			['crossOut.crossOutLastResort'],
			'look'
		],
		[
			'a crossed-out name with an empty oval is calm where cross-outs are taken',
			'treasurer',
			{ levels: { [TOBIAS]: 'dark' }, marks: [['treasurer', 'fenwright', 'strike', 'on-name']] },
			['crossOutClean.crossOutLastResort'],
			'calm'
		],
		[
			'a crossed-out name with an empty oval is not, where only a new ballot will do',
			'treasurer',
			{
				election: withMethod('replacement-only'),
				levels: { [TOBIAS]: 'dark' },
				marks: [['treasurer', 'fenwright', 'strike', 'on-name']]
			},
			['crossOutClean.replacementOnly'],
			'look'
		],
		[
			'crossing out alone chooses nobody',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'strike', 'on-name']] },
			['crossOutAlone'],
			'look'
		],
		[
			'one ring around two names',
			'treasurer',
			{ marks: [['treasurer', 'fenwright', 'ring', 'on-name', 'quillonby']] },
			['touchesTwo', 'ring'],
			'look'
		],
		[
			'marks for two parties',
			'senate-lantern',
			{ levels: { 'senate-lantern/tavenport': 'dark', 'assembly-orchard/featherby': 'dark' } },
			['crossover', 'correct'],
			'look'
		],
		[
			'two contests of one party',
			'senate-lantern',
			{ levels: { 'senate-lantern/tavenport': 'dark', 'assembly-lantern/oakhanger': 'dark' } },
			['nothing'],
			'calm'
		],
		[
			'a mark for a party that is not the one chosen',
			'senate-orchard',
			{ levels: { 'party-preference/lantern': 'dark', 'senate-orchard/perrywick': 'dark' } },
			['crossover', 'correct'],
			'look'
		],
		[
			'the chosen party where another one’s contest is marked',
			'party-preference',
			{ levels: { 'party-preference/lantern': 'dark', 'senate-orchard/perrywick': 'dark' } },
			['crossover', 'correct'],
			'look'
		],
		[
			'a mark for the party that is chosen',
			'senate-orchard',
			{ levels: { 'party-preference/orchard': 'dark', 'senate-orchard/perrywick': 'dark' } },
			['nothing'],
			'calm'
		],
		[
			'both parties chosen choose none',
			'senate-orchard',
			{
				levels: {
					'party-preference/lantern': 'dark',
					'party-preference/orchard': 'dark',
					'senate-orchard/perrywick': 'dark'
				}
			},
			['nothing'],
			'calm'
		],
		[
			'an empty contest of the other party than the one chosen',
			'senate-orchard',
			{ levels: { 'party-preference/lantern': 'dark', 'senate-lantern/tavenport': 'dark' } },
			['blank'],
			'calm'
		],
		[
			'other parties do not concern a contest of none',
			'treasurer',
			{ levels: { [ODESSA]: 'dark', 'senate-lantern/tavenport': 'dark', 'senate-orchard/perrywick': 'dark' } },
			['nothing'],
			'calm'
		]
	];

	test.each(cases)('%s', (_, contest, given, keys, tone) => {
		expect(keysAt(adviseOn(contest, given))).toEqual(keys);
		expect(headOf(contest, given).tone).toBe(tone);
	});

	test('three dark with one crossed out in a vote for two leaves two, and the cross-out is the matter', () => {
		const levels = {
			'commissioners/birchmere': 'dark',
			'commissioners/castlebury': 'dark',
			'commissioners/ngawaru': 'dark'
		} as const;
		const reading = adviseOn('commissioners', { levels, marks: [['commissioners', 'ngawaru', 'strike', 'on-name']] });
		expect(keysAt(reading)).toEqual(['crossOut.crossOutLastResort']);
	});

	test('one line through two names crosses out both', () => {
		const levels = { [ODESSA]: 'dark', [TOBIAS]: 'dark', 'treasurer/etxandi': 'dark' } as const;
		const marks: Given['marks'] = [['treasurer', 'fenwright', 'strike', 'on-name', 'quillonby']];
		const { advice } = adviseOn('treasurer', { levels, marks });
		expect(advice.filter(({ stage }) => stage === 'holding').map(({ choice }) => choice)).toEqual([
			'fenwright',
			'quillonby'
		]);
	});

	test('a joined arrow is the mark itself on an arrow ballot', () => {
		const election = withTarget({ shape: 'arrow' });
		const reading = adviseOn('treasurer', {
			election,
			levels: { [ODESSA]: 'dark' },
			marks: [['treasurer', 'fenwright', 'join', 'in-target']]
		});
		expect(keysAt(reading)).toEqual(['nothing']);
	});

	test('where the target did not change sides, a mark after the name is only beside it', () => {
		const election = withTarget({ side: 'right' });
		const reading = adviseOn('treasurer', { election, marks: [['treasurer', 'fenwright', 'fill', 'after-name']] });
		expect(keysAt(reading)).toEqual(['beside']);
	});
});

describe('the stages', () => {
	const over: Given = { levels: { [ODESSA]: 'dark', [TOBIAS]: 'dark' } };

	test('each points to the office’s own steps', () => {
		const { advice } = adviseOn('treasurer', over);
		expect(advice.map(({ stage, office }) => [stage, office])).toEqual([
			['holding', 'instructions.correction.steps.holding'],
			['polling-place', 'instructions.correction.steps.polling-place'],
			['mailed', 'instructions.correction.steps.mailed']
		]);
	});

	test('once mailed nobody is asked for more ink', () => {
		expect(keysAt(adviseOn('treasurer', { marks: [['treasurer', 'fenwright', 'ring', 'on-name']] }), 'mailed')).toEqual(
			['mailed']
		);
		expect(keysAt(adviseOn('treasurer', {}), 'mailed')).toEqual(['blank']);
	});

	test('more ink needs the marking instruction, a written name the write-in one', () => {
		const ring = adviseOn('treasurer', { marks: [['treasurer', 'fenwright', 'ring', 'on-name']] });
		const name = adviseOn('treasurer', { marks: [['treasurer', 'write-in', 'writing', 'write-in']] });
		expect(ring.advice[0]?.office).toBe('instructions.mark');
		expect(name.advice[0]?.office).toBe('instructions.writeIn');
	});
});

describe('whether anyone would tell the voter in time', () => {
	test('a scanner knows too many marks, by the office’s word', () => {
		const levels = { [ODESSA]: 'dark', [TOBIAS]: 'dark' } as const;
		expect(adviseOn('treasurer', { levels }).warned).toEqual({ pollingPlace: true, mail: false });
	});

	test('a ring that is missed is told by nobody', () => {
		const { warned } = adviseOn('treasurer', { marks: [['treasurer', 'fenwright', 'ring', 'on-name']] });
		expect(warned).toEqual({ pollingPlace: false, mail: false });
	});

	test('one blank contest is told by nobody even where a blank ballot is handed back', () => {
		const election = {
			...county,
			instructions: { ...county.instructions, pollingPlaceWarns: { overvote: true, blank: true } }
		};
		expect(adviseOn('treasurer', { election }).warned.pollingPlace).toBe(true);
		expect(adviseOn('treasurer', { election, levels: { 'measure-1/yes': 'dark' } }).warned.pollingPlace).toBe(false);
	});
});

describe('the heading', () => {
	test('names who is likely read', () => {
		expect(headOf('treasurer', { levels: { [ODESSA]: 'dark' } })).toEqual({
			key: 'likelyRead',
			values: { choices: ['fenwright'] },
			tone: 'calm'
		});
	});

	test('tells a mark of which nothing is read from a contest without any', () => {
		const dot = { marks: [['treasurer', 'fenwright', 'dot', 'in-target']] } as const;
		expect(headOf('treasurer', dot)).toMatchObject({ key: 'noneRead', tone: 'calm' });
		expect(headOf('treasurer', {})).toMatchObject({ key: 'nothingFound', tone: 'calm' });
		// The edge of a printed line that passed for ink.
		const speck = { marks: [['treasurer', undefined, 'unsure', 'margin']] } as const;
		expect(headOf('treasurer', speck)).toMatchObject({ key: 'nothingFound', tone: 'calm' });
	});

	test('asks for a second look where people would decide otherwise than the machine', () => {
		const people = { outcome: 'void-contest', wouldLook: true } as const;
		expect(headOf('treasurer', { levels: { [ODESSA]: 'dark' }, people })).toMatchObject({
			key: 'peopleDiffer',
			tone: 'look'
		});
		expect(headOf('treasurer', { levels: { [ODESSA]: 'dark' }, people: { ...NO_LOOK } }).tone).toBe('calm');
	});
});

describe('what people are said to decide', () => {
	const twoParties = { 'senate-lantern/tavenport': 'dark', 'senate-orchard/brambell': 'dark' } as const;
	const people = { outcome: 'void-contest' } as const;

	test('hangs on the whole ballot, and not on who looks, where two parties are marked', () => {
		const reading = adviseOn('senate-lantern', { levels: twoParties, people });
		expect(reading.advice.map(({ key }) => key)).toContain('crossover');
		expect(peopleSay(reading)).toMatchObject({
			when: { key: 'when.setAside.no' },
			decide: { key: 'ifLooked.partyRule' }
		});
	});

	test('is a matter of looking where another rule voids the contest', () => {
		expect(peopleSay(adviseOn('treasurer', { levels: { [ODESSA]: 'dark' }, people })).decide).toMatchObject({
			key: 'ifLooked.voidContest'
		});
		const looked = { ...people, wouldLook: true };
		expect(peopleSay(adviseOn('senate-lantern', { levels: twoParties, people: looked })).decide).toMatchObject({
			key: 'decide.voidContest'
		});
	});
});

test('a contest nobody read is refused with what to do', () => {
	expect(() => adviseOn('treasurer', { election: { ...county, contests: [] } })).toThrow();
});
