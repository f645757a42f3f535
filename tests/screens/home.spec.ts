import { createHash } from 'node:crypto';
import { readdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { expect, test } from '@playwright/test';
import { axeFindingsOn, scrollsSideways, troublesOf } from '../support/screen';

const homes = [
	{ path: 'en/', lang: 'en', title: 'Practice marking a paper ballot', kept: 'Your marks are not kept or sent.' },
	{ path: 'es/', lang: 'es', title: 'Practique cómo marcar una boleta de papel', kept: 'no se guardan ni se envían' }
];

for (const { path, lang, title, kept } of homes)
	test.describe(`home in ${lang}`, () => {
		test('says what this is, with no trouble and no other host', async ({ page, baseURL }) => {
			const troubles = troublesOf(page, baseURL ?? '');
			await page.goto(path);
			await expect(page.locator('html')).toHaveAttribute('lang', lang);
			await expect(page.getByRole('heading', { level: 1 })).toHaveText(title);
			await expect(page.getByRole('main')).toContainText(kept);
			await page.waitForLoadState('networkidle');
			expect(troubles).toEqual([]);
		});

		test('leads to the county ballot and to the fun ballot', async ({ page }) => {
			await page.goto(path);
			const ways = page.locator('.ways').getByRole('link');
			await expect(ways).toHaveCount(2);
			for (const [i, address] of [`${path}practice/`, `${path}practice/#fair`].entries())
				expect(await ways.nth(i).evaluate((link: HTMLAnchorElement) => link.href)).toMatch(new RegExp(`${address}$`));
		});

		test('has nothing for axe to find, wide or narrow', async ({ page }) => {
			// With no motion: a picture half faded in has no contrast to measure.
			await page.emulateMedia({ reducedMotion: 'reduce' });
			for (const width of [1280, 360]) {
				await page.setViewportSize({ width, height: 800 });
				await page.goto(path);
				expect(await axeFindingsOn(page)).toEqual([]);
			}
		});

		test('fits a screen of 320 px and a text twice as large', async ({ page }) => {
			await page.setViewportSize({ width: 320, height: 640 });
			await page.goto(path);
			expect(await scrollsSideways(page)).toBe(false);
			await page.setViewportSize({ width: 640, height: 640 });
			await page.evaluate(() => (document.documentElement.style.fontSize = '225%'));
			expect(await scrollsSideways(page)).toBe(false);
		});

		test('keeps its name and the other language apart when the text is large on a phone', async ({ page }) => {
			await page.setViewportSize({ width: 360, height: 740 });
			await page.goto(path);
			await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
			const words = page.locator('.wordmark .rest');
			const name = (await words.boundingBox())!;
			const language = (await page.locator('header a[hreflang]').boundingBox())!;
			expect(name.x + name.width <= language.x || name.y + name.height <= language.y).toBe(true);
			expect(name.x + name.width).toBeLessThanOrEqual(360);
			expect(await scrollsSideways(page)).toBe(false);
		});

		test('is reached link by link with the keyboard, each with a ring and room for a finger', async ({ page }) => {
			await page.goto(path);
			const links = await page.locator('a:visible').all();
			expect(links.length).toBeGreaterThan(4);
			for (const link of links) {
				await page.keyboard.press('Tab');
				await expect(link).toBeFocused();
				expect(await link.evaluate((it) => parseFloat(getComputedStyle(it).outlineWidth))).toBeGreaterThanOrEqual(3);
				expect((await link.boundingBox())?.height).toBeGreaterThanOrEqual(44);
			}
		});

		test('draws its picture once, and at once for who wants no motion', async ({ page }) => {
			await page.emulateMedia({ reducedMotion: 'reduce' });
			await page.goto(path);
			const notes = page.getByRole('img').locator('dl');
			for (const note of await notes.all()) await expect(note).toBeVisible();
			// None at all, not even one of no length: until the next frame it hides what it is to draw.
			expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
		});
	});

test('the first page names every language in its own words and remembers nothing', async ({
	page,
	context,
	baseURL
}) => {
	const troubles = troublesOf(page, baseURL ?? '');
	await page.goto('./');
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Fairhand ballot practice');
	await expect(page.getByRole('link')).toHaveCount(2);
	expect(await axeFindingsOn(page)).toEqual([]);
	await page.getByRole('link', { name: 'Español' }).click();
	await expect(page).toHaveURL(/\/es\/$/);
	await expect(page.locator('html')).toHaveAttribute('lang', 'es');
	expect(await page.evaluate(() => localStorage.length + sessionStorage.length)).toBe(
		// SvelteKit keeps where pages were scrolled to, for the back button.
		await page.evaluate(() => Object.keys(sessionStorage).filter((key) => key.startsWith('sveltekit:')).length)
	);
	expect(await context.cookies()).toEqual([]);
	expect(troubles).toEqual([]);
});

test('every page of the build carries the policy, with no script but its own and no other host', async ({ page }) => {
	const build = fileURLToPath(new URL('../../build', import.meta.url));
	const files = (await readdir(build, { recursive: true })).filter((file) => file.endsWith('.html'));
	expect(files.length).toBeGreaterThan(homes.length);
	for (const file of files) {
		const path = file.replaceAll('\\', '/').replace(/index\.html$/, '');
		const html = await (await page.request.get(`./${path}`)).text();
		const [, before, policy] = /^([^]*?)<meta http-equiv="content-security-policy" content="([^"]*)">/.exec(html) ?? [];
		// It rules what comes after it.
		expect([path, before]).toEqual([
			path,
			expect.not.stringMatching(/<(script|style)\b|rel="(stylesheet|modulepreload)"/)
		]);
		const scripts = [...html.matchAll(/<script>([^]*?)<\/script>/g)].map(
			([, script]) => `'sha256-${createHash('sha256').update(script!).digest('base64')}'`
		);
		const directives = new Map(
			policy!.split(';').map((directive) => {
				const [name, ...sources] = directive.trim().split(/\s+/);
				return [name!, sources];
			})
		);
		const { 'style-src-attr': attributes, ...rest } = Object.fromEntries(directives);
		expect([path, rest]).toEqual([
			path,
			{
				'default-src': ["'none'"],
				'script-src': ["'self'", ...scripts],
				'style-src': ["'self'"],
				'img-src': ["'self'", 'blob:', 'data:'],
				'font-src': ["'self'"],
				'connect-src': ["'self'"],
				'worker-src': ["'self'"],
				'manifest-src': ["'self'"],
				'base-uri': ["'none'"],
				'form-action': ["'none'"],
				'object-src': ["'none'"]
			}
		]);
		// The one style in an attribute that SvelteKit writes.
		expect([path, attributes]).toEqual([path, ["'unsafe-hashes'", expect.stringMatching(/^'sha256-[\w+/]+=*'$/)]]);
	}
});

test('the language link keeps the place and changes the language of the page', async ({ page }) => {
	await page.goto('en/#know');
	const link = page.getByRole('navigation', { name: 'Languages' }).getByRole('link', { name: 'Español' });
	// The page's script adds the place.
	await expect(link).toHaveAttribute('href', /#know$/);
	await link.click();
	await expect(page).toHaveURL(/\/es\/#know$/);
	await expect(page.locator('html')).toHaveAttribute('lang', 'es');
	await expect(page).toHaveTitle('Practique cómo marcar una boleta de papel · Fairhand ballot practice');
});

test('the skip link goes past the header', async ({ page }) => {
	await page.goto('en/');
	await page.keyboard.press('Tab');
	await page.keyboard.press('Enter');
	await expect(page.getByRole('main')).toBeFocused();
});
