import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import svelte from 'eslint-plugin-svelte';
import { defineConfig, globalIgnores } from 'eslint/config';
import globals from 'globals';
import ts from 'typescript-eslint';
import svelteConfig from './svelte.config.js';

const pure = 'src/core is pure and knows nothing above it: pass what it needs as an argument.';

export default defineConfig(
	globalIgnores(['build/', '.svelte-kit/', 'node_modules/', 'test-results/', 'coverage/', '.results/']),
	js.configs.recommended,
	ts.configs.strictTypeChecked,
	svelte.configs.recommended,
	prettier,
	svelte.configs.prettier,
	{
		languageOptions: {
			globals: { ...globals.browser, ...globals.node },
			parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname, extraFileExtensions: ['.svelte'] }
		},
		rules: {
			'no-undef': 'off',
			'@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }]
		}
	},
	{
		files: ['**/*.svelte', '**/*.svelte.ts'],
		languageOptions: { parserOptions: { parser: ts.parser, svelteConfig } },
		rules: {
			// `resolve` returns no final slash, so a link adds one to what it returned; the rule does not know that form.
			'svelte/no-navigation-without-resolve': ['error', { ignoreLinks: true }]
		}
	},
	{
		files: ['src/core/**/*.ts'],
		rules: {
			'no-restricted-imports': [
				'error',
				{
					patterns: [
						{ regex: '^[^.]', message: pure },
						{ regex: 'lib/|routes/|cli/', message: pure }
					]
				}
			],
			'no-restricted-globals': ['error', 'console', 'document', 'window', 'navigator', 'setTimeout', 'performance'],
			'no-restricted-properties': [
				'error',
				{
					object: 'Math',
					property: 'random',
					message: 'Use random.ts with a seed: the same input gives the same page everywhere.'
				},
				{ object: 'Date', property: 'now', message: 'src/core has no clock: pass the day in.' }
			]
		}
	},
	{
		files: ['src/core/rules/**/*.ts'],
		rules: {
			'@typescript-eslint/no-restricted-imports': [
				'error',
				{
					patterns: [
						{ regex: '^[^.]', message: pure },
						{
							group: ['**/marks/*', '**/page/*', '**/ink/*'],
							allowTypeImports: true,
							message: 'rules/ works on what was found, never on pixels: import types only.'
						}
					]
				}
			]
		}
	},
	{ files: ['tests/**/*.ts'], rules: { '@typescript-eslint/no-non-null-assertion': 'off' } },
	{ files: ['**/*.js', '**/*.mjs'], extends: [ts.configs.disableTypeChecked] }
);
