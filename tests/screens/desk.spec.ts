import { readFile } from 'node:fs/promises';
import { expect, test, type Page } from '@playwright/test';
import { countyWithAnswers as county } from '../../src/core/answers/demoCounty';
import { OFTEN_ASKED } from '../../src/core/answers/oftenAsked';
import { triage } from '../../src/core/answers/triage';
import { tabTo } from '../support/ballot';
import { axeFindingsOn, scrollsSideways, troublesOf } from '../support/screen';

const DAY = new Date('2027-08-30T15:00:00Z');
const MOST_KEYS = 8;

/** Opens an empty desk on a day of the demo county's calendar and waits for its first question. */
async function openDesk(page: Page, path = 'en/desk/', day = DAY): Promise<void> {
	await page.clock.setFixedTime(day);
	await page.goto(path);
	await expect(page.locator('.desk[data-ready=true]')).toBeVisible();
	await expect(page.locator('[data-attend]')).toBeFocused();
}

/** What a clerk answers on the way to an answer, as ids. */
function wayTo(question: number): readonly string[] {
	const answer = county.answers.find(({ questions }) => questions.includes(question))!;
	const start = { holding: ['with-me', 'home'], 'polling-place': ['with-me', 'polling-place'], mailed: ['sent'] };
	return [...start[answer.stages[0]!], answer.kind, answer.id];
}

for (const { lang, read } of [
	{ lang: 'en', read: 'Read this aloud' },
	{ lang: 'es', read: 'Lea esto en voz alta' }
] as const)
	test(`the twenty questions most asked are answered in at most ${MOST_KEYS} keys each: ${lang}`, async ({ page }) => {
		await openDesk(page, `${lang}/desk/`);
		for (const question of OFTEN_ASKED) {
			const answer = county.answers.find(({ questions }) => questions.includes(question))!;
			const way = wayTo(question);
			let presses = 0;
			for (const [i, id] of way.entries()) {
				// The key that stands on the screen beside the words.
				const at = triage(county.answers, way.slice(0, i)).options.findIndex((option) => option.id === id);
				const key = await page.locator('.triage .question kbd').nth(at).innerText();
				await page.keyboard.press(key);
				presses += 1;
			}
			const shown = page.getByRole('article');
			await expect(shown.getByRole('heading', { level: 2 })).toHaveText(answer.title[lang]!);
			await expect(shown.getByText(read)).toBeVisible();
			expect([question, presses <= MOST_KEYS]).toEqual([question, true]);
			await page.keyboard.press('Escape');
			await expect(page.locator('[data-attend]')).toBeFocused();
		}
	});

test('a search finds the answer from an empty desk, and nothing typed is kept', async ({ page, baseURL }) => {
	const troubles = troublesOf(page, baseURL ?? '');
	await openDesk(page);
	await page.keyboard.press('/');
	await page.keyboard.type('coffe');
	await expect(page.locator('.found button').first()).toContainText('coffee');
	await page.keyboard.press('Enter');
	await expect(page.getByRole('article')).toContainText('spilled coffee');
	await expect(page.getByRole('searchbox')).toHaveValue('');
	const kept = await page.evaluate((): string[] => [
		JSON.stringify(localStorage),
		location.href,
		JSON.stringify(history.state)
	]);
	expect(kept.filter((text) => text.includes('coffe'))).toEqual([]);
	expect(troubles).toEqual([]);
});

test('takes no name and no free text in the search: only words that the answers know', async ({ page }) => {
	await openDesk(page);
	await page.keyboard.press('/');
	const field = page.getByRole('searchbox');
	await field.fill('Odessa Fenwright');
	await expect(field).not.toHaveValue(/[a-z] [a-z]/i);
	await field.fill('');
	await page.keyboard.type('spilled coffee on Odessa');
	await expect(field).toHaveValue(/^spilled coffee on [a-z]{0,2}$/i);
	await expect(page.getByText('Our answers do not know that word.')).toBeVisible();
});

test('has no field for a name, a choice or notes: a search, a day, and lists to choose from', async ({ page }) => {
	await openDesk(page);
	for (const key of ['1', '1', '1', '1']) await page.keyboard.press(key);
	await page.keyboard.press('0');
	await expect(page.locator('.marks[data-ready=true]')).toBeVisible();
	const fields = await page
		.locator('input, textarea, [contenteditable]')
		.evaluateAll((all) => all.map((field) => (field as HTMLInputElement).type));
	expect(fields.sort()).toEqual(['date', 'search']);
});

test('reads aloud a sentence a line, in the caller’s language, with the way that is open today', async ({ page }) => {
	await openDesk(page);
	for (const key of ['1', '1', '1', '1']) await page.keyboard.press(key);
	const lines = page.locator('.aloud p');
	await expect(lines.first()).toHaveText(/^Do not worry/);
	await expect(lines.nth(1)).toContainText('mail you a new one until Monday, September 6');
	await page.keyboard.press('l');
	await expect(lines.first()).toHaveText(/^No se preocupe/);
	await expect(page.locator('.aloud')).toHaveAttribute('lang', 'es');
});

test('a day set for training changes the answers, and the call is not tallied', async ({ page }) => {
	await openDesk(page);
	await page.getByLabel('Set a day, for training').fill('2027-09-08');
	await expect(page.getByText('Training day: Wednesday, September 8')).toBeVisible();
	await page.locator('[data-attend]').focus();
	for (const key of ['1', '1', '1', '1']) await page.keyboard.press(key);
	await expect(page.locator('.aloud')).toContainText('too late to mail');
	await page.keyboard.press('e');
	await expect(page.getByText('Training: this call was not tallied.')).toBeVisible();
	expect(await page.evaluate(() => localStorage.length)).toBe(0);
});

test('one key tallies a call, and the files hold cells under 10 back', async ({ page }) => {
	await openDesk(page);
	const call = async (keys: string[], times: number): Promise<void> => {
		for (let i = 0; i < times; i += 1) {
			for (const key of keys) await page.keyboard.press(key);
			await expect(page.locator('[data-attend]')).toBeFocused();
		}
	};
	await call(['1', '1', '1', '1', 'e'], 21);
	await call(['2', '1', '1', 's'], 4);
	await expect(page.getByText('Tallied. Ready for the next call.')).toBeVisible();
	expect(await page.evaluate(() => Object.keys(localStorage))).toEqual(['fairhand.calls']);
	await page.getByText('Calls on this device').click();
	await expect(page.getByRole('row', { name: /Wrong choice marked/ })).toContainText('held back');
	await call(['1', '1', '1', '5', 'o'], 12);
	await expect(page.getByRole('row', { name: /Wrong choice marked/ })).toContainText('21');
	for (const [button, ending] of [
		['Save as CSV', 'csv'],
		['Save as JSON', 'json']
	] as const) {
		const [download] = await Promise.all([
			page.waitForEvent('download'),
			page.getByRole('button', { name: button }).click()
		]);
		expect(download.suggestedFilename()).toBe(`calls-demo-county-2027-08-30.${ending}`);
		const text = await readFile(await download.path(), 'utf8');
		expect(text).toContain('wrong-choice');
		expect(text).toContain('suppressed');
		expect(text).toMatch(/\b21\b/);
		expect(text).not.toMatch(/(,|": )[1-9]\s/);
	}
	await page.getByRole('button', { name: 'Clear the tally' }).click();
	await page.getByRole('dialog').getByRole('button', { name: 'Clear it' }).click();
	await expect(page.getByText('No calls yet.')).toBeVisible();
	expect(await page.evaluate(() => localStorage.length)).toBe(0);
});

test('a mark that a caller describes is placed by keys and read', async ({ page }) => {
	await openDesk(page);
	await page.keyboard.press('0');
	await expect(page.locator('.marks[data-ready=true]')).toBeVisible();
	await expect(page.locator('.marks')).toBeFocused();
	await page.keyboard.press('o');
	const note = page.locator('.seen .slip');
	await expect(note).toContainText('The ring may be missed');
	await page.keyboard.press('ArrowDown');
	await page.keyboard.press('f');
	await expect(note).toContainText('Would likely read Choice B');
	await page.keyboard.press('Delete');
	await expect(note).toHaveCount(0);
});

test('what the office asks about a mark is as of the desk’s day, a training day too', async ({ page }) => {
	await openDesk(page);
	await page.keyboard.press('0');
	await expect(page.locator('.marks[data-ready=true]')).toBeVisible();
	await page.keyboard.press('f');
	await page.keyboard.press('ArrowDown');
	await page.keyboard.press('f');
	const note = page.locator('.seen .slip');
	await expect(note).toContainText('Too many marks');
	await expect(note).toContainText('until Monday, September 6, 5 PM');
	// The number is this desk's own.
	await expect(note).toContainText(county.office.phone);
	await expect(page.locator('a[href^="tel:"]')).toHaveCount(0);
	await expect(note).not.toContainText('{');
	await page.getByLabel('Set a day, for training').fill('2027-09-08');
	await expect(note).toContainText('too late now to mail');
});

for (const path of ['en/desk/', 'es/desk/'])
	test.describe(path, () => {
		test('has nothing for axe to find: empty, with an answer, with the paper and the tally', async ({ page }) => {
			for (const width of [1280, 360]) {
				await page.setViewportSize({ width, height: 800 });
				await openDesk(page, path);
				expect(await axeFindingsOn(page)).toEqual([]);
				for (const key of ['1', '1', '1', '1']) await page.keyboard.press(key);
				await expect(page.getByRole('article')).toBeVisible();
				await page.locator('details').last().locator('summary').click();
				await page.locator('.paper > button').click();
				await expect(page.locator('.marks[data-ready=true]')).toBeVisible();
				await page.keyboard.press('c');
				await expect(page.locator('.seen .slip')).toBeVisible();
				expect(await axeFindingsOn(page)).toEqual([]);
			}
		});

		test('fits a screen of 320 px and a text twice as large', async ({ page }) => {
			for (const [width, size] of [
				[320, '112.5%'],
				[640, '225%'],
				[360, '200%']
			] as const) {
				await page.setViewportSize({ width, height: 640 });
				await openDesk(page, path);
				await page.evaluate((fontSize) => (document.documentElement.style.fontSize = fontSize), size);
				expect(await scrollsSideways(page)).toBe(false);
				for (const key of ['1', '1', '1', '1', '0']) await page.keyboard.press(key);
				await expect(page.locator('.marks[data-ready=true]')).toBeVisible();
				expect(await scrollsSideways(page)).toBe(false);
			}
		});

		test('works with no network after one visit', async ({ page, context }) => {
			await page.goto(path.replace('desk/', ''));
			await expect(page.locator('[data-offline-ready=true]')).not.toBeEmpty();
			await context.setOffline(true);
			await openDesk(page, path);
			for (const key of ['1', '1', '1', '1']) await page.keyboard.press(key);
			await expect(page.locator('.aloud')).not.toBeEmpty();
			await page.keyboard.press('0');
			await expect(page.locator('.marks[data-ready=true]')).toBeVisible();
		});
	});

test('the Tab key reaches every button, so that no key has to be known by heart', async ({ page }) => {
	await openDesk(page);
	await tabTo(page, page.getByRole('button', { name: 'No, it is sent' }));
	await page.keyboard.press('Enter');
	await tabTo(page, page.getByRole('button', { name: 'One step back' }), 'Shift+Tab');
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { name: 'Is the ballot still with you?' })).toBeVisible();
});

test('keys do nothing while somebody types, and take no letter from the search', async ({ page }) => {
	await openDesk(page);
	await page.keyboard.press('/');
	await page.keyboard.type('pen 0 a b c');
	await expect(page.getByRole('searchbox')).toHaveValue(/^pen /);
	await expect(page.getByRole('heading', { name: 'Is the ballot still with you?' })).toBeVisible();
	await page.keyboard.press('Escape');
	await expect(page.getByRole('searchbox')).toHaveValue('');
});
