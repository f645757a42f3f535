import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MARK_KINDS as READER_KINDS, MARK_PLACES as READER_PLACES } from '$core/marks/mark';
import { checkRulebook } from '$core/rules/checkRulebook';
import { SWITCHES } from '$core/rules/switches';
import { BALLOT_FACTS, MARK_KINDS, MARK_PLACES, OPERATORS, RESULTS, SAYINGS, SCOPES } from '$core/rules/vocabulary';
import house from '$core/rules/sets/demo-county.json' with { type: 'json' };
import schema from '../../../static/schema/rulebook.json' with { type: 'json' };

// Ajv implements JSON Schema 2020-12: an outside opinion on every shape that checkRulebook judges by hand.
const fits = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true }).compile(schema);

type Loose = Record<string, unknown> & { clauses: Record<string, unknown>[] };

/** The house rulebook with a fault put into it. */
function broken(put: (book: Loose) => void): Loose {
	const book = structuredClone(house) as unknown as Loose;
	put(book);
	return book;
}

const clauseOf = (book: Loose, i: number): Record<string, unknown> => book.clauses[i] ?? {};
const paths = (document: unknown): readonly string[] => checkRulebook(document).map(({ path }) => path);

interface Fault {
	readonly name: string;
	readonly put: (book: Loose) => void;
	readonly path: string;
	/** false: only the check sees it, because it compares parts of the file. */
	readonly shape: boolean;
}

const inClause = (name: string, field: string, value: unknown, path = field): Fault => ({
	name,
	path: `clauses[0].${path}`,
	shape: true,
	put: (book) => {
		if (value === undefined) Reflect.deleteProperty(clauseOf(book, 0), field);
		else clauseOf(book, 0)[field] = value;
	}
});

const FAULTS: readonly Fault[] = [
	inClause('an unknown kind', 'when', { mark: { kind: 'blob' } }, 'when.mark.kind'),
	inClause('an unknown place', 'when', { mark: { place: ['in-target', 'nowhere'] } }, 'when.mark.place[1]'),
	inClause('an unknown word', 'when', { all: [{ marked: true }] }, 'when.all[0].marked'),
	inClause('two words in one condition', 'when', { struck: true, erased: true }, 'when'),
	inClause('no condition', 'when', {}, 'when'),
	inClause('an empty list of parts', 'when', { any: [] }, 'when.any'),
	inClause('a false where only true makes sense', 'when', { struck: false }, 'when.struck'),
	inClause('a contest word in a choice clause', 'when', { votes: 'none' }, 'when.votes'),
	inClause('a fact that is not known yet', 'when', { ballot: 'preference-marked' }, 'when.ballot'),
	inClause(
		'a switch answer that is not one',
		'when',
		{ switch: { name: 'strikeAlone', is: 'maybe' } },
		'when.switch.is'
	),
	inClause('a citation in a language that is none', 'citeIn', { Spanish: 'Regla 1' }, 'citeIn.Spanish'),
	inClause('a citation in another language that is no text', 'citeIn', { es: 1 }, 'citeIn.es'),
	inClause('a fill above one', 'when', { target: { fillAtLeast: 50 } }, 'when.target.fillAtLeast'),
	inClause('a result of another scope', 'then', 'overvote'),
	inClause('no citation', 'cite', undefined),
	inClause('a blank citation', 'cite', ' '),
	inClause('no source', 'source', undefined),
	inClause('a quotation that is too long', 'quote', 'x'.repeat(201)),
	inClause('no plain sentence', 'plain', undefined),
	inClause('no Spanish sentence', 'plain', { en: 'One.' }, 'plain.es'),
	inClause('a blank sentence', 'plain', { en: '', es: 'Una.' }, 'plain.en'),
	inClause('a field that is not known', 'weight', 3),
	inClause('a part-read rule without its gap', 'status', 'R-part', 'gap'),
	inClause('an unknown scope', 'scope', 'page'),
	{ name: 'an unknown way of looking', path: 'looks', shape: true, put: (book) => (book['looks'] = 'sometimes') },
	{ name: 'a part-read text without its gap', path: 'gap', shape: true, put: (book) => (book['howMuchRead'] = 'part') },
	{ name: 'no caution', path: 'caution', shape: true, put: (book) => Reflect.deleteProperty(book, 'caution') },
	{
		name: 'a dangling exception',
		path: 'clauses[0].exceptionTo[0]',
		shape: false,
		put: (book) => (clauseOf(book, 0)['exceptionTo'] = ['no-such'])
	},
	{
		name: 'an exception to a clause of another scope',
		path: 'clauses[0].exceptionTo[0]',
		shape: false,
		put: (book) => (clauseOf(book, 0)['exceptionTo'] = ['demo-4a'])
	},
	{
		name: 'exceptions in a circle',
		path: 'clauses[0].exceptionTo',
		shape: false,
		put: (book) => (clauseOf(book, 0)['exceptionTo'] = ['demo-3a'])
	},
	{
		name: 'an exception to itself',
		path: 'clauses[2].exceptionTo',
		shape: false,
		put: (book) => (clauseOf(book, 2)['exceptionTo'] = ['demo-1c'])
	},
	{
		name: 'an id twice',
		path: 'clauses[3].id',
		shape: false,
		put: (book) => (clauseOf(book, 3)['id'] = 'demo-1a')
	},
	{
		name: 'two clauses of one case that disagree',
		path: 'clauses[1].then',
		shape: false,
		put: (book) => {
			book.clauses[1] = { ...clauseOf(book, 0), id: 'demo-1b', then: 'no-vote' };
		}
	},
	{
		name: 'a looks clause that is not there',
		path: 'looksClause',
		shape: false,
		put: (book) => (book['looksClause'] = 'x')
	},
	{ name: 'a day that no calendar has', path: 'readOn', shape: false, put: (book) => (book['readOn'] = '2026-02-30') }
];

describe('checkRulebook', () => {
	test('takes the house rulebook, as the schema does', () => {
		expect(checkRulebook(house)).toEqual([]);
		expect(fits(house), JSON.stringify(fits.errors)).toBe(true);
	});

	test.each(FAULTS)('finds $name, says so once at its path, and nothing else', ({ put, path }) => {
		const found = checkRulebook(broken(put));
		expect(found.map((problem) => problem.path)).toEqual([path]);
		expect(found[0]?.severity).toBe('error');
		expect(found[0]?.message).toContain(path);
	});

	test.each(FAULTS.filter(({ shape }) => shape))('finds $name, as the schema does', ({ put }) => {
		expect(fits(broken(put))).toBe(false);
	});

	test('finds all faults of one file at once', () => {
		const book = broken((one) => {
			Object.assign(clauseOf(one, 0), { when: { mark: { kind: 'blob' } } });
			Reflect.deleteProperty(clauseOf(one, 1), 'cite');
			Object.assign(clauseOf(one, 2), { exceptionTo: ['demo-3a'], id: 'demo-1c' });
			clauseOf(one, 6)['exceptionTo'] = ['demo-1c'];
			Object.assign(clauseOf(one, 10), { when: { votes: 'too-many' }, then: 'void-contest', exceptionTo: [] });
		});
		expect(clauseOf(book, 6)['id']).toBe('demo-3a');
		expect(clauseOf(book, 10)['id']).toBe('demo-4b');
		const found = paths(book);
		expect(found).toEqual(
			expect.arrayContaining([
				'clauses[0].when.mark.kind',
				'clauses[1].cite',
				'clauses[2].exceptionTo',
				'clauses[10].then'
			])
		);
		expect(found).toHaveLength(4);
	});

	test('lets two clauses of one case disagree where one is the other’s exception or their conflict is named', () => {
		for (const relation of ['exceptionTo', 'conflictsWith'])
			expect(
				paths(
					broken((book) => {
						const twin = { ...clauseOf(book, 0), id: 'demo-1z', then: 'no-vote', [relation]: ['demo-1a'] };
						book.clauses.push(twin);
					})
				)
			).toEqual([]);
	});

	test('never throws and never takes what is no rulebook, whatever JSON it is given', () => {
		fc.assert(
			fc.property(fc.jsonValue(), (document) => {
				expect(checkRulebook(document).length).toBeGreaterThan(0);
			})
		);
	});

	test('takes no condition that the schema refuses, and refuses none that it takes', () => {
		const condition = fc.letrec((tie) => ({
			part: fc.oneof(
				{ maxDepth: 3 },
				fc.constantFrom(
					{ always: true },
					{ struck: true },
					{ mark: { kind: 'fill' } },
					{ mark: { kind: [] } },
					{ mark: { colour: 'red' } },
					{ target: {} },
					{ votes: ['none', 'fewer'] },
					{ machine: 'blank' },
					{ ballot: 'votes-in-several-parties' },
					{ seats: 'many' },
					{ onBallot: {} },
					{ channel: ['mail'] },
					null,
					[],
					'always'
				),
				fc.record({ all: fc.array(tie('part'), { maxLength: 2 }) }),
				fc.record({ not: tie('part') }),
				fc.record({ other: tie('part') }),
				fc.record({ voted: tie('part') }),
				fc.record({ someContest: tie('part') })
			)
		})).part;
		fc.assert(
			fc.property(condition, fc.constantFrom(...SCOPES), (when, scope) => {
				const book = broken((one) => {
					one.clauses.push({
						...clauseOf(one, 0),
						id: 'new',
						scope,
						when,
						then: 'refer',
						conflictsWith: one.clauses.map(({ id }) => id)
					});
				});
				expect(paths(book).length === 0, JSON.stringify(paths(book))).toBe(fits(book));
			}),
			{ numRuns: 300 }
		);
	});
});

describe('the words of the pattern language', () => {
	test('for kinds and places are those that the reader reports', () => {
		expect(MARK_KINDS).toEqual(READER_KINDS);
		expect(MARK_PLACES).toEqual(READER_PLACES);
	});
});

describe('the schema', () => {
	test('knows the same words as the checker', () => {
		const { $defs } = schema;
		const wordsOf = (name: 'choiceCondition' | 'contestCondition' | 'ballotCondition') =>
			$defs[name].anyOf.map(({ required }) => required[0]);
		for (const scope of SCOPES) {
			const allowed = Object.entries(OPERATORS).filter(([, scopes]) => (scopes as readonly string[]).includes(scope));
			expect(wordsOf(`${scope}Condition`)).toEqual(allowed.map(([op]) => op));
		}
		expect($defs.mark.properties.kind.anyOf[0]?.enum).toEqual(MARK_KINDS);
		expect($defs.mark.properties.place.anyOf[0]?.enum).toEqual(MARK_PLACES);
		expect($defs.mark.properties.says.anyOf[0]?.enum).toEqual(SAYINGS);
		expect(Object.keys(schema.properties.switches.properties)).toEqual(Object.keys(SWITCHES));
		for (const result of Object.values(RESULTS).flat()) expect(JSON.stringify($defs.clause)).toContain(`"${result}"`);
		for (const fact of BALLOT_FACTS) expect(JSON.stringify($defs.ballotCondition)).toContain(`"${fact}"`);
	});
});
