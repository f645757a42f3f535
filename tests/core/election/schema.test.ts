import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { check } from '$core/election/check';
import { county, fair } from '$core/election/demo';
import schema from '../../../static/schema/election.json' with { type: 'json' };
import { broken, FAULTS } from './corpus';

// Ajv implements JSON Schema 2020-12: an outside opinion on every shape that `check` judges by hand.
const fits = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false }).compile(schema);
const hasError = (document: unknown): boolean => check(document).some(({ severity }) => severity === 'error');

describe('the schema', () => {
	test('takes the two demo files', () => {
		expect(fits(county), JSON.stringify(fits.errors)).toBe(true);
		expect(fits(fair), JSON.stringify(fits.errors)).toBe(true);
	});

	test.each(FAULTS.filter(({ sort }) => sort === 'shape'))('refuses $name, as check does', ({ put }) => {
		expect(fits(broken(put))).toBe(false);
		expect(hasError(broken(put))).toBe(true);
	});

	test.each(FAULTS.filter(({ sort }) => sort === 'open'))(
		'takes $name, which only holds publishing back',
		({ put }) => {
			expect(fits(broken(put)), JSON.stringify(fits.errors)).toBe(true);
		}
	);

	test.each(FAULTS.filter(({ sort }) => sort === 'meaning'))('cannot see $name, which check finds', ({ put }) => {
		expect(fits(broken(put)), JSON.stringify(fits.errors)).toBe(true);
		expect(hasError(broken(put))).toBe(true);
	});

	test('refuses nothing that check takes, wherever any value is put into a demo file', () => {
		const paths = [...pathsOf(county, '')];
		const words = fc.constantFrom('', 'yes', 'write-in', 'answer', 'ranked', 'es', '2027-09-14', 'undecided');
		const value = fc.oneof(
			fc.jsonValue({ maxDepth: 2 }),
			words,
			fc.integer({ min: -2, max: 40 }),
			fc.constant(undefined)
		);
		let refused = 0;
		fc.assert(
			fc.property(fc.constantFrom(...paths), value, (path, put) => {
				const document = broken({ [path]: put });
				if (fits(document)) return;
				refused++;
				expect(hasError(document), `${path}: ${JSON.stringify(put)}`).toBe(true);
			}),
			{ seed: 20270914, numRuns: 400 }
		);
		expect(refused).toBeGreaterThan(150);
	}, 60_000);

	test('describes every field, so that an editor can explain it', () => {
		expect([...undescribed(schema, '#')]).toEqual([]);
	});
});

function* pathsOf(value: unknown, path: string): Generator<string> {
	if (path !== '') yield path;
	if (Array.isArray(value)) for (const [i, entry] of value.entries()) yield* pathsOf(entry, `${path}[${i}]`);
	else if (typeof value === 'object' && value !== null)
		for (const [key, entry] of Object.entries(value)) yield* pathsOf(entry, path === '' ? key : `${path}.${key}`);
}

/** Fields of an object (beside `additionalProperties`, so not those of a condition) with nothing said of them. */
function* undescribed(node: unknown, path: string): Generator<string> {
	if (typeof node !== 'object' || node === null) return;
	const { properties, additionalProperties } = node as {
		properties?: Record<string, unknown>;
		additionalProperties?: unknown;
	};
	if (properties && additionalProperties === false)
		for (const [name, field] of Object.entries(properties)) {
			const { description, title, $ref } = field as { description?: string; title?: string; $ref?: string };
			const shared = (schema.$defs as Record<string, { description?: string }>)[$ref?.split('/').at(-1) ?? ''];
			if ((description ?? title ?? shared?.description) === undefined) yield `${path}/${name}`;
		}
	for (const [key, child] of Object.entries(node)) yield* undescribed(child, `${path}/${key}`);
}
