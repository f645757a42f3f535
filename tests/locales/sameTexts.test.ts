import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LANGS } from '$lib/i18n/i18n';
import { askedKey, locales, placeholdersOf, pluralOf } from './texts';

const askedKeys = (lang: (typeof LANGS)[number]): string[] => [...new Set([...locales[lang].keys()].map(askedKey))];

describe('the languages', () => {
	it('have a file each, and no file is left over', () => {
		const files = readdirSync(join(import.meta.dirname, '../../locales')).filter((file) => file.endsWith('.json'));
		expect(files.sort()).toEqual(LANGS.map((lang) => `${lang}.json`).sort());
	});

	it('have the same keys', () => {
		expect(askedKeys('es').sort()).toEqual(askedKeys('en').sort());
	});

	it('leave no text empty, and hold nothing but texts', () => {
		for (const lang of LANGS)
			expect([...locales[lang]].filter(([, text]) => !text?.trim()).map(([key]) => `${lang}: ${key}`)).toEqual([]);
	});

	it('fill in the same values', () => {
		const values = (lang: (typeof LANGS)[number], asked: string): string[] => {
			const texts = [...locales[lang]].filter(([key]) => askedKey(key) === asked);
			return [...new Set(texts.flatMap(([, text]) => placeholdersOf(text ?? '')))].sort();
		};
		for (const key of askedKeys('en')) expect([key, values('es', key)]).toEqual([key, values('en', key)]);
	});

	// The forms a language needs come from CLDR, by way of the JavaScript engine.
	it.each(LANGS)('have every plural form that the language needs: %s', (lang) => {
		const needed = new Intl.PluralRules(lang).resolvedOptions().pluralCategories.slice().sort();
		const forms = new Map<string, string[]>();
		for (const key of locales[lang].keys()) {
			const form = pluralOf(key);
			if (form) forms.set(askedKey(key), [...(forms.get(askedKey(key)) ?? []), form]);
		}
		expect(forms.size).toBeGreaterThan(0);
		for (const [key, have] of forms) expect([key, have.sort()]).toEqual([key, needed]);
	});
});

describe('the code', () => {
	it('asks only for texts that are there', () => {
		const source = join(import.meta.dirname, '../../src');
		const files = readdirSync(source, { recursive: true, encoding: 'utf8' }).filter((f) => /\.(svelte|ts)$/.test(f));
		const have = new Set(askedKeys('en'));
		const asked = files.flatMap((file) =>
			// Keys put together from parts end in a quote later than the first `$`: only whole ones are looked at.
			[...readFileSync(join(source, file), 'utf8').matchAll(/\bt\(\s*'([\w-]+(?:\.[\w-]+)+)'/g)].map((m) => m[1]!)
		);
		expect(asked.length).toBeGreaterThan(10);
		// A context (`_oval`) is added when the text is looked up.
		const known = (key: string): boolean => have.has(key) || [...have].some((other) => other.startsWith(`${key}_`));
		expect(asked.filter((key) => !known(key))).toEqual([]);
	});
});
