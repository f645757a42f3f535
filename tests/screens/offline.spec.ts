import { expect, test, type Page } from '@playwright/test';
import { fillTarget, openPractice } from '../support/ballot';

/** One visit, until the app says that all of it is on the device. */
async function visit(page: Page): Promise<void> {
	await page.goto('en/');
	await expect(page.locator('[data-offline-ready=true]')).toHaveText('Ready to work with no network.');
}

const pages = [
	{ path: 'en/', title: 'Practice marking a paper ballot' },
	{ path: 'es/', title: 'Practique cómo marcar una boleta de papel' },
	{ path: 'en/practice/', title: 'Mark this practice ballot' },
	{ path: 'es/practice/', title: 'Marque esta boleta de práctica' },
	{ path: './', title: 'Fairhand ballot practice' }
];

for (const { path, title } of pages)
	test(`${path} opens with no network after one visit, and opens again`, async ({ page, context }) => {
		await visit(page);
		await context.setOffline(true);
		await page.goto(path);
		await expect(page.getByRole('heading', { level: 1 })).toHaveText(title);
		await page.reload();
		await expect(page.getByRole('heading', { level: 1 })).toHaveText(title);
		// The text's own font, not a stand-in: it is part of the app.
		await page.evaluate(() => document.fonts.ready);
		expect(await page.evaluate(() => document.fonts.check('18px "Atkinson Hyperlegible Next"'))).toBe(true);
	});

for (const [path, words] of [
	['en/practice/', 'Likely read'],
	['es/practice/', 'Probablemente se lee']
] as const)
	test(`${path} reads a ballot with no network, after a reload and after going there by a link`, async ({
		page,
		context
	}) => {
		await page.setViewportSize({ width: 1280, height: 900 });
		await visit(page);
		await context.setOffline(true);
		await page.goto(path);
		await page.reload();
		await openPractice(page, path);
		await fillTarget(page, 0);
		await expect(page.locator('.margin .note:visible')).toContainText(words);
		await page.goto(path.replace('practice/', ''));
		await page.locator('a[href$="practice/"]').first().click();
		await expect(page).toHaveURL(new RegExp(`${path}$`));
		await expect(page.locator('svg.print').first()).toBeVisible();
	});

test('an address without its final slash is led to the page', async ({ page, context }) => {
	await visit(page);
	await context.setOffline(true);
	for (const path of ['es/practice', 'es', 'en/index.html']) {
		await page.goto(path);
		await expect(page).toHaveURL(new RegExp(`/${path.replace('index.html', '').replace(/\/?$/, '/')}$`));
		await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
	}
});

test('an unknown address with no network leads to the first page', async ({ page, context }) => {
	await visit(page);
	await context.setOffline(true);
	await page.goto('en/nowhere/');
	await expect(page).toHaveURL(/\/ballot\/$/);
});

test('the app can be installed: a manifest with its icons', async ({ page, request }) => {
	await page.goto('en/');
	const address = await page.locator('link[rel=manifest]').evaluate((link: HTMLLinkElement) => link.href);
	const manifest = (await (await request.get(address)).json()) as { name: string; icons: { src: string }[] };
	expect(manifest.name).toBe('Fairhand ballot practice');
	for (const { src } of manifest.icons) expect((await request.get(new URL(src, address).href)).status()).toBe(200);
});
