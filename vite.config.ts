import { sveltekit } from '@sveltejs/kit/vite';
import { SvelteKitPWA } from '@vite-pwa/sveltekit';
import { defineConfig } from 'vitest/config';

const base = `${process.env.BASE_PATH ?? ''}/`;

export default defineConfig({
	server: { fs: { allow: ['locales'] } },
	worker: { format: 'es' },
	plugins: [
		sveltekit(),
		SvelteKitPWA({
			base,
			scope: base,
			strategies: 'injectManifest',
			srcDir: 'src',
			filename: 'service-worker.js',
			registerType: 'prompt',
			injectRegister: false,
			manifest: {
				name: 'Fairhand ballot practice',
				short_name: 'Fairhand',
				description: 'Practise marking a paper ballot and see how each mark would be read. Practice only.',
				start_url: './',
				scope: './',
				display: 'standalone',
				background_color: '#e9e4d8',
				theme_color: '#1a2138',
				lang: 'en',
				icons: [
					{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
					{ src: 'icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
					{ src: 'icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
					{ src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' }
				]
			},
			injectManifest: {
				globPatterns: [
					'client/**/*.{js,css,ico,png,svg,webp,wasm,woff2,webmanifest,json}',
					'prerendered/**/*.{html,json}'
				],
				maximumFileSizeToCacheInBytes: 4 * 1024 * 1024
			},
			// eslint-disable-next-line @typescript-eslint/no-deprecated -- without it the start page is listed as '/' under any base path
			kit: { base, trailingSlash: 'always' }
		})
	],
	test: {
		include: ['tests/**/*.test.ts'],
		setupFiles: ['tests/support/seed.ts', 'src/core/layout/font/bundled.ts'],
		environment: 'node',
		testTimeout: 60_000,
		expect: { requireAssertions: true }
	}
});
