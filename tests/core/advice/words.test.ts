import { describe, expect, test } from 'vitest';
import { REMEDIES, SITUATIONS } from '$core/advice/situation';
import { MISSING_KEYS } from '$core/rules/vocabulary';
import { MARK_KINDS, MARK_PLACES } from '$core/marks/mark';
import en from '$locales/en.json';
import es from '$locales/es.json';

type Tree = { readonly [key: string]: string | Tree };
const SECTIONS = ['marks', 'reading', 'rules', 'advice'] as const;
const SHAPES = ['oval', 'box', 'arrow'];
const BUNDLES = [
	['en', en as Tree],
	['es', es as Tree]
] as const;

function leaves(tree: Tree, path = ''): readonly (readonly [path: string, text: string])[] {
	return Object.entries(tree).flatMap(([key, value]) =>
		typeof value === 'string' ? [[`${path}${key}`, value] as const] : leaves(value, `${path}${key}.`)
	);
}
const mine = (bundle: Tree) => SECTIONS.flatMap((section) => leaves(bundle[section] as Tree, `${section}.`));
/** A path without its plural form: languages differ in how many they have. */
const base = (path: string): string => path.replace(/_(one|many|other)$/, '');
const valuesOf = (text: string): readonly string[] =>
	[...text.matchAll(/\{\{(\w+)\}\}/g)].map((match) => match[1] ?? '').sort();

/** Words that promise what only an office can say. "Discount" and "county" are other words. */
const PROMISES = {
	en: /\b(counts?|counted|counting|valid|invalid|vote will|your vote)\b/i,
	es: /\b(cuentan?|contará|contarán|contad[oa]s?|válid[oa]s?|inválid[oa]s?|su voto)\b/i
};

describe('the texts of notes', () => {
	test('are the same set in both languages', () => {
		const paths = BUNDLES.map(([, bundle]) => [...new Set(mine(bundle).map(([path]) => base(path)))].sort());
		expect(paths[1]).toEqual(paths[0]);
	});

	test('ask for the same values in both languages, except where a form for one says the number in words', () => {
		const spanish = new Map(mine(es as Tree).map(([path, text]) => [path, valuesOf(text)]));
		const differ = mine(en as Tree).filter(([path, text]) => {
			const other = spanish.get(path);
			return other && JSON.stringify(other) !== JSON.stringify(valuesOf(text));
		});
		expect(differ).toEqual([]);
	});

	test.each(BUNDLES)('never promise in %s that a vote counts', (lang, bundle) => {
		expect(mine(bundle).filter(([, text]) => PROMISES[lang].test(text.replace(/\{\{\w+\}\}/g, '')))).toEqual([]);
	});

	test.each(BUNDLES)('have every plural form that %s needs', (lang, bundle) => {
		const forms = new Intl.PluralRules(lang).resolvedOptions().pluralCategories;
		const paths = new Set(mine(bundle).map(([path]) => path));
		const plural = [...paths].filter((path) => path !== base(path)).map(base);
		expect(plural.length).toBeGreaterThan(0);
		for (const path of plural) for (const form of forms) expect(paths).toContain(`${path}_${form}`);
	});

	test.each(BUNDLES)('name every kind and place of a mark in %s', (_, bundle) => {
		const paths = mine(bundle).map(([path]) => path);
		for (const kind of MARK_KINDS) expect(paths).toContain(`marks.kind.${kind}`);
		for (const place of MARK_PLACES)
			expect(paths.some((path) => path === `marks.place.${place}` || path === `marks.place.${place}_oval`)).toBe(true);
	});

	test.each(BUNDLES)('say in %s why any clause did not apply', (_, bundle) => {
		const paths = mine(bundle).map(([path]) => path.replace(/_oval$/, ''));
		for (const key of MISSING_KEYS) expect(paths).toContain(`rules.missing.${key}`);
	});

	test('come in all three shapes where they come in one', () => {
		const paths = new Set(mine(en as Tree).map(([path]) => path));
		const shaped = [...paths].filter((path) => /_(oval|box|arrow)(_|$)/.test(path));
		expect(shaped.length).toBeGreaterThan(0);
		for (const path of shaped)
			for (const shape of SHAPES) expect(paths).toContain(path.replace(/_(oval|box|arrow)(?=_|$)/, `_${shape}`));
	});

	test('hold a heading for every situation that asks for a look, and advice for all, and no other advice', () => {
		const roots = (section: string) =>
			new Set(
				Object.keys(section.split('.').reduce<Tree>((at, step) => at[step] as Tree, en)).map(
					(key) => key.split('_')[0] ?? ''
				)
			);
		const headings = roots('reading.headline');
		const advice = roots('advice');
		for (const id of SITUATIONS) {
			expect(advice).toContain(id);
			if (REMEDIES[id].tone === 'look') expect(headings).toContain(id);
		}
		expect([...advice].filter((key) => !(SITUATIONS as readonly string[]).includes(key)).sort()).toEqual([
			'correct',
			'mailed'
		]);
	});
});
