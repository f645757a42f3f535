import adapter from '@sveltejs/adapter-static';
import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';
import { readFileSync } from 'node:fs';

const { version } = JSON.parse(readFileSync(new URL('./package.json', import.meta.url), 'utf8'));

/** @type {import('@sveltejs/kit').Config} */
const config = {
	preprocess: vitePreprocess(),
	compilerOptions: { runes: ({ filename }) => (filename.includes('node_modules') ? undefined : true) },
	kit: {
		// No fallback page: `strict` then proves that every route was prerendered.
		adapter: adapter({ pages: 'build', assets: 'build', strict: true, precompress: false }),
		alias: { $core: 'src/core', $locales: 'locales' },
		paths: { base: process.env.BASE_PATH ?? '', relative: true },
		prerender: {
			handleHttpError: 'fail',
			handleMissingId: ({ id, message }) => {
				// practice/#fair names a ballot, not a place on the page: a prerendered page may not read ?ballot=.
				if (id !== 'fair') throw new Error(message);
			},
			handleUnseenRoutes: 'fail',
			entries: ['*']
		},
		serviceWorker: { register: false },
		version: { name: process.env.APP_VERSION ?? version },
		csp: {
			mode: 'hash',
			directives: {
				'default-src': ['none'],
				'script-src': ['self'],
				'style-src': ['self'],
				// SvelteKit's route announcer is a <div style="…">; this is its hash.
				'style-src-attr': ['unsafe-hashes', 'sha256-S8qMpvofolR8Mpjy4kQvEm7m1q8clzU4dfDH0AmvZjo='],
				'img-src': ['self', 'blob:', 'data:'],
				'font-src': ['self'],
				'connect-src': ['self'],
				'worker-src': ['self'],
				'manifest-src': ['self'],
				'base-uri': ['none'],
				'form-action': ['none'],
				'object-src': ['none']
			}
		},
		typescript: {
			config: (generated) => ({
				...generated,
				include: [...generated.include, '../tests/**/*.mjs', '../playwright.config.ts', '../locales/*.json', '../*.js']
			})
		}
	}
};

export default config;
