import { expect, test as base, type Locator, type Page } from '@playwright/test';
import { fillTarget, inkOn, openPractice } from '../support/ballot';
import { twoVersions, type TwoVersions } from '../support/versions';

const test = base.extend<{ host: TwoVersions }>({
	host: async ({ baseURL }, use) => {
		const host = await twoVersions(baseURL!);
		await use(host);
		host.close();
	}
});

const offer = (page: Page): Locator => page.getByRole('button', { name: 'Use the new version' });

/** Has the browser look for a new version, as it does by itself now and then, until that is complete and waits. */
async function lookForNew(page: Page): Promise<void> {
	await page.evaluate(async () => {
		const registration = await navigator.serviceWorker.ready;
		await registration.update();
	});
	await expect.poll(() => page.evaluate(async () => Boolean((await navigator.serviceWorker.ready).waiting))).toBe(true);
}

/** The page now in a tab. It is found there until a page is loaded in its place, even the same one anew. */
async function pageIn(page: Page): Promise<Locator> {
	await page.evaluate(() => (document.documentElement.dataset.seen = 'true'));
	return page.locator('html[data-seen]');
}

/** Opens the app and waits until all of it is on the device. */
async function visit(page: Page, site: string): Promise<void> {
	await page.goto(`${site}en/`);
	await expect(page.locator('[data-offline-ready=true]')).toBeVisible();
}

/** Leaves one mark on the ballot and resolves to its ink. */
async function markBallot(page: Page): Promise<string> {
	await fillTarget(page, 0);
	await expect(page.locator('.margin .note:visible')).toHaveCount(1);
	// The mark dries a moment after the pen is up.
	await expect.poll(() => inkOn(page)).not.toBe('');
	return inkOn(page);
}

test.use({ viewport: { width: 1280, height: 900 } });

test('a new version is not spoken of while there is ink, then offered, and taken only on the press', async ({
	page,
	host
}) => {
	await visit(page, host.site);
	await openPractice(page, `${host.site}en/practice/`);
	const ink = await markBallot(page);
	const opened = await pageIn(page);
	host.bringNew();
	await lookForNew(page);
	// Time for an offer that should not come.
	await page.waitForTimeout(1000);
	await expect(offer(page)).toHaveCount(0);
	expect(await inkOn(page)).toBe(ink);

	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(offer(page)).toBeVisible();
	await expect(opened).toHaveCount(1);
	await offer(page).click();
	await expect(opened).toHaveCount(0);
	await expect(page.locator('.practice[data-mounted=true]')).toBeVisible();
	await expect(offer(page)).toHaveCount(0);
});

test('a new version taken in one tab leaves the ballot in another, which works on until it is left', async ({
	page,
	context,
	host
}) => {
	await visit(page, host.site);
	await openPractice(page, `${host.site}en/practice/`);
	// What the list to mark without drawing is made of, which is fetched when it is opened.
	const parts: string[] = [];
	page.on('request', (request) => parts.push(request.url().replace(host.site, '')));
	await page.getByRole('button', { name: 'Mark without drawing' }).click();
	await expect(page.getByRole('group', { name: /County Treasurer/ })).toBeVisible();
	const list = parts.filter((part) => part.startsWith('_app/immutable/'));
	expect(list).not.toEqual([]);
	await page.goto(`${host.site}en/`);

	const other = await context.newPage();
	await openPractice(other, `${host.site}en/practice/`);
	const ink = await markBallot(other);
	const ballot = await pageIn(other);
	host.bringNew(list);
	await lookForNew(page);
	const first = await pageIn(page);
	await offer(page).click();
	await expect(first).toHaveCount(0);

	// Time for a reload that should not come.
	await other.waitForTimeout(1000);
	await expect(ballot).toHaveCount(1, { timeout: 1000 });
	expect(await inkOn(other)).toBe(ink);
	await expect(offer(other)).toHaveCount(0);
	await other.getByRole('button', { name: 'Mark without drawing' }).click();
	await expect(other.getByRole('group', { name: /County Treasurer/ })).toBeVisible();

	await other.getByRole('link', { name: 'Answers' }).first().click();
	await other.getByRole('dialog').getByRole('button', { name: 'Take a fresh sheet' }).click();
	await expect(other).toHaveURL(/\/en\/answers\/$/);
	await expect(ballot).toHaveCount(0);
	await expect(other.getByRole('heading', { level: 1 })).toBeVisible();
	await expect(offer(other)).toHaveCount(0);
});

test('a tab that has been passed by says so when its ballot is empty, and reloads on the press', async ({
	page,
	context,
	host
}) => {
	await visit(page, host.site);
	const other = await context.newPage();
	await openPractice(other, `${host.site}en/practice/`);
	await markBallot(other);
	const ballot = await pageIn(other);
	host.bringNew();
	await lookForNew(page);
	const first = await pageIn(page);
	await offer(page).click();
	await expect(first).toHaveCount(0);

	await other.getByRole('button', { name: 'Undo' }).click();
	await expect(offer(other)).toBeVisible();
	await expect(ballot).toHaveCount(1, { timeout: 1000 });
	await offer(other).click();
	await expect(ballot).toHaveCount(0);
	await expect(offer(other)).toHaveCount(0);
});
