import { expect, test, type Page } from '@playwright/test';
import { tabTo } from '../support/ballot';
import { axeFindingsOn, scrollsSideways, troublesOf } from '../support/screen';

const DAY = new Date('2027-08-30T15:00:00Z');

/** Opens the page on a day of the demo county's calendar and waits until it can answer. */
async function openAnswers(page: Page, path: string, day = DAY): Promise<void> {
	await page.clock.setFixedTime(day);
	await page.goto(path);
	await expect(page.locator('.page[data-ready=true]')).toBeVisible();
}

const languages = [
	{ path: 'en/answers/', words: 'spilled coffe on it', found: /I spilled coffee/, first: 'A stain is most often' },
	{ path: 'es/answers/', words: 'me equivoque de bolita', found: /óvalo equivocado/, first: 'No se preocupe' }
];

for (const { path, words, found, first } of languages)
	test.describe(path, () => {
		test('finds an answer in the voter’s words and keeps none of them', async ({ page, context, baseURL }) => {
			const troubles = troublesOf(page, baseURL ?? '');
			await openAnswers(page, path);
			await page.getByRole('searchbox').fill(words);
			await expect(page.locator('.found a').first()).toHaveText(found);
			await page.keyboard.press('Enter');
			await expect(page.getByRole('article')).toContainText(first);
			await expect(page.getByRole('article').getByRole('heading', { level: 2 })).toBeFocused();
			const kept = await page.evaluate(async () => ({
				local: localStorage.length,
				session: Object.entries(sessionStorage).map(([key, value]) => key + String(value)),
				databases: (await indexedDB.databases()).length,
				address: location.href,
				state: JSON.stringify(history.state)
			}));
			expect(kept.local + kept.databases).toBe(0);
			for (const text of [...kept.session, decodeURIComponent(kept.address), kept.state])
				expect(text).not.toContain(words.split(' ')[1]);
			expect(await context.cookies()).toEqual([]);
			expect(troubles).toEqual([]);
		});

		test('says whom to ask where nothing fits', async ({ page }) => {
			await openAnswers(page, path);
			await page.getByRole('searchbox').fill('zzzzqqqq');
			await expect(page.getByRole('status').getByRole('link', { name: '555-0142' })).toBeVisible();
		});

		test('gives the office’s number as a link that calls it and stays in one line', async ({ page }) => {
			await page.setViewportSize({ width: 320, height: 640 });
			await openAnswers(page, path);
			let calls = 0;
			for (const id of ['not-signed', 'too-many']) {
				await page.goto(`${path}#${id}`);
				const links = page.getByRole('article').getByRole('link', { name: '555-0142' });
				await expect(links.first()).toHaveAttribute('href', 'tel:5550142');
				for (const link of await links.all()) {
					expect(await link.evaluate((node) => node.getClientRects().length)).toBe(1);
					calls += 1;
				}
				// Nowhere is it plain text.
				const named = (await page.getByRole('article').innerText()).split('555-0142').length - 1;
				expect(named).toBe(await links.count());
			}
			expect(calls).toBeGreaterThan(2);
		});

		test('has nothing for axe to find, with the gallery, with what was found, and with an answer', async ({ page }) => {
			for (const width of [1280, 360]) {
				await page.setViewportSize({ width, height: 800 });
				await openAnswers(page, path);
				expect(await axeFindingsOn(page)).toEqual([]);
				await page.getByRole('searchbox').fill(words);
				await expect(page.locator('.found a').first()).toBeVisible();
				expect(await axeFindingsOn(page)).toEqual([]);
				await page.goto(`${path}#x-or-check`);
				await expect(page.getByRole('article')).toBeVisible();
				expect(await axeFindingsOn(page)).toEqual([]);
			}
		});

		test('fits a screen of 320 px and a text twice as large', async ({ page }) => {
			for (const [width, size] of [
				[320, '112.5%'],
				[640, '225%']
			] as const) {
				await page.setViewportSize({ width, height: 640 });
				await openAnswers(page, path);
				await page.evaluate((fontSize) => (document.documentElement.style.fontSize = fontSize), size);
				expect(await scrollsSideways(page)).toBe(false);
				await page.getByRole('searchbox').fill(words);
				await expect(page.locator('.found a').first()).toBeVisible();
				expect(await scrollsSideways(page)).toBe(false);
				await page.keyboard.press('Enter');
				await expect(page.getByRole('article')).toBeVisible();
				expect(await scrollsSideways(page)).toBe(false);
			}
		});

		test('opens an answer by its address with no network after one visit', async ({ page, context }) => {
			await page.goto(path.replace('answers/', ''));
			await expect(page.locator('[data-offline-ready=true]')).not.toBeEmpty();
			await context.setOffline(true);
			await page.goto(`${path}#not-signed`);
			await expect(page.getByRole('article')).toContainText('555-0142');
			await page.getByRole('searchbox').fill(words);
			await expect(page.locator('.found a').first()).toHaveText(found);
		});
	});

test('the keyboard alone leads from the search to an answer, to its stage and back', async ({ page }) => {
	await openAnswers(page, 'en/answers/');
	await tabTo(page, page.getByRole('searchbox'));
	await page.keyboard.type('used a pencil');
	await page.keyboard.press('ArrowDown');
	await expect(page.locator('.found a').first()).toBeFocused();
	await page.keyboard.press('Enter');
	const answer = page.getByRole('article');
	await expect(answer).toContainText('go over each mark');
	await tabTo(page, answer.getByRole('button', { name: 'Already mailed' }));
	await page.keyboard.press('Enter');
	await expect(answer).not.toContainText('go over each mark');
	await expect(answer).toContainText('there is nothing to do');
	await tabTo(page, page.getByRole('link', { name: 'Back to what was found' }));
	await page.keyboard.press('Enter');
	await expect(answer).toHaveCount(0);
	await expect(page.locator('.found a').first()).toContainText('pencil');
	await tabTo(page, page.getByRole('button', { name: 'Clear the words' }), 'Shift+Tab');
	await page.keyboard.press('Enter');
	await expect(page.getByRole('searchbox')).toBeFocused();
	await expect(page.getByRole('heading', { name: 'My ballot looks like this' })).toBeVisible();
});

test('a picture of the gallery leads to its answer, where its reading stands', async ({ page }) => {
	await openAnswers(page, 'en/answers/');
	const picture = page.getByRole('link', { name: /A ring around the name/ });
	await expect(picture).toContainText('The ring may be missed');
	await picture.click();
	await expect(page).toHaveURL(/#name-circled$/);
	await expect(page.getByRole('article').locator('.looks')).toContainText('Sees no ink in the oval for Choice A');
	await expect(page.getByRole('article').locator('.looks')).toContainText('Demo rule 2(a)');
});

test('an answer changes by itself on the day of its cut-off', async ({ page }) => {
	await openAnswers(page, 'en/answers/#replacement', new Date('2027-09-06T21:59:00Z'));
	await expect(page.getByRole('article')).toContainText('we can mail you a new one');
	await page.clock.setFixedTime(new Date('2027-09-06T22:00:00Z'));
	await page.reload();
	await expect(page.getByRole('article')).toContainText('too late now to mail you a new one');
});

test('an answer that nobody has approved sends the voter to the office', async ({ page }) => {
	await page.route('**/ledger.json', async (route) => {
		const file = (await (await route.fetch()).json()) as { answers: { id: string; text: object }[] };
		const answers = file.answers.map((one) => (one.id === 'wrong-oval' ? { ...one, text: { en: '' } } : one));
		await route.fulfill({ json: { ...file, answers } });
	});
	await openAnswers(page, 'en/answers/#wrong-oval');
	const answer = page.getByRole('article');
	await expect(answer).toContainText('Please ask the office: 555-0142.');
	await expect(answer).not.toContainText('new ballot is');
	await expect(answer.locator('.looks')).toHaveCount(0);
});

test('prints the answer alone, in 12 points, or in 18 where large print is wanted', async ({ page }) => {
	await openAnswers(page, 'en/answers/#erase');
	const size = () =>
		page
			.locator('article .said p')
			.first()
			.evaluate((it) => parseFloat(getComputedStyle(it).fontSize));
	await page.emulateMedia({ media: 'print' });
	expect(await size()).toBeCloseTo(16, 0);
	for (const hidden of [page.getByRole('searchbox'), page.getByRole('banner'), page.locator('.found')])
		await expect(hidden).toBeHidden();
	await page.emulateMedia({ media: 'screen' });
	await page.getByRole('switch', { name: 'Large print (18 point)' }).check();
	await page.emulateMedia({ media: 'print' });
	expect(await size()).toBeCloseTo(24, 0);
});

test('the home page leads to the answers and to the call desk', async ({ page }) => {
	await page.goto('en/');
	await page.getByRole('link', { name: 'Find an answer' }).click();
	await expect(page).toHaveURL(/\/en\/answers\/$/);
	await page.goBack();
	await page.getByRole('link', { name: /call desk/ }).click();
	await expect(page).toHaveURL(/\/en\/desk\/$/);
});
