import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jsonFault } from '$core/election/jsonFault';
import { county } from '$core/election/demo';

const isJson = (text: string): boolean => {
	try {
		JSON.parse(text);
		return true;
	} catch {
		return false;
	}
};

describe('jsonFault', () => {
	test('points at the first character that is wrong', () => {
		const cases: readonly (readonly [string, number])[] = [
			['', 0],
			['{', 1],
			['{"a": primary}', 6],
			['{"a": 1,}', 8],
			['[1 2]', 3],
			['[1]]', 3],
			['[1}', 2],
			['{"a" 1}', 5],
			['"a\nb"', 2],
			['"a\\x"', 2],
			['"open', 5],
			['{a: 1}', 1],
			['01', 1],
			['truth', 0]
		];
		for (const [text, offset] of cases) expect(jsonFault(text), text).toBe(offset);
	});

	test('finds no fault exactly where the engine’s own parser finds none', () => {
		const damage = fc.tuple(
			fc.nat(),
			fc.constantFrom('', '"', ',', '{', '}', '[', ']', ':', '\\', '0', 'e', '-', '\n', 'u', ' ')
		);
		let faulty = 0;
		fc.assert(
			fc.property(fc.json({ maxDepth: 4 }), damage, fc.boolean(), (json, [at, piece], replaces) => {
				const i = at % (json.length + 1);
				const text = json.slice(0, i) + piece + json.slice(replaces ? i + 1 : i);
				const fault = jsonFault(text);
				expect(fault === undefined, text).toBe(isJson(text));
				if (fault !== undefined) faulty++;
			}),
			{ seed: 20270914, numRuns: 5000 }
		);
		expect(faulty).toBeGreaterThan(1000);
	});

	test('points before nothing that could still have become JSON: the same fault whatever follows it', () => {
		const text = JSON.stringify(county);
		fc.assert(
			fc.property(fc.nat({ max: text.length - 1 }), fc.string(), (i, tail) => {
				const fault = jsonFault(`${text.slice(0, i)}\u0001`);
				expect(fault).toBeGreaterThanOrEqual(i - 5);
				expect(jsonFault(`${text.slice(0, i)}\u0001${tail}`)).toBe(fault);
			})
		);
	});

	test('takes a deep text without a deep stack', () => {
		expect(jsonFault('['.repeat(1_000_000))).toBe(1_000_000);
		expect(jsonFault(`${'['.repeat(500_000)}${']'.repeat(500_000)}`)).toBeUndefined();
	});
});
