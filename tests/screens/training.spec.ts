import { readFile } from 'node:fs/promises';
import { expect, test, type Page } from '@playwright/test';
import { tabTo } from '../support/ballot';
import { axeFindingsOn, heldScripts, scrollsSideways, troublesOf } from '../support/screen';

const DAY = new Date('2027-08-30T15:00:00Z');

async function openTraining(page: Page, path = 'en/training/'): Promise<void> {
	await page.clock.setFixedTime(DAY);
	await page.goto(path);
	await expect(page.locator('.training[data-ready=true]')).toBeVisible();
}

/** Starts a round as it stands in the form, with the keyboard. */
async function startReview(page: Page): Promise<void> {
	await page.locator('form').first().locator('button[type=submit]').focus();
	await page.keyboard.press('Enter');
	await expect(page.locator('[data-phase=deciding]')).toBeVisible();
}

/** Decides the case that lies there by a key; where several votes are allowed a digit only gathers, and Enter takes. */
async function decide(page: Page, key: string): Promise<void> {
	await expect(page.locator('[data-phase=deciding]')).toBeVisible();
	await expect(page.locator('#case-title')).toBeFocused();
	await page.keyboard.press(key);
	const gathers = await page.locator('.option[aria-pressed=true]').count();
	if (gathers > 0) await page.keyboard.press('Enter');
	await expect(page.locator('[data-phase=shown]')).toBeVisible();
}

async function decideAll(page: Page, keys: readonly string[]): Promise<void> {
	for (const key of keys) {
		await decide(page, key);
		await page.keyboard.press('Enter');
	}
}

const TEN = ['1', '7', '0', '2', '8', '1', '9', '1', '0', '2'];
const TEN_OTHERS = ['1', '1', '0', '2', '8', '7', '9', '1', '0', '8'];

test('ten marks are decided by keys alone, and the clause is on the page after each decision and never before', async ({
	page,
	baseURL
}) => {
	const troubles = troublesOf(page, baseURL ?? '');
	await openTraining(page);
	await tabTo(page, page.getByRole('button', { name: 'Start deciding' }));
	await page.keyboard.press('Enter');
	for (const [i, key] of TEN.entries()) {
		await expect(page.locator('#case-title')).toContainText(`Mark ${i + 1} of 10`);
		await expect(page.locator('[data-phase=deciding]')).toBeVisible();
		// The name of the rulebook is known before; what it says is not.
		expect(await page.locator('main').innerText()).not.toMatch(/Demo rule \d/);
		expect(await page.locator('main').innerHTML()).not.toMatch(/demo-\d/);
		await decide(page, key);
		const card = page.locator('article[data-rulebook=demo-county]');
		await expect(card).toContainText(/Demo rule \d|The rule says nothing/);
		await expect(page.locator('.ruling dl')).toContainText('Machine');
		await expect(page.getByRole('heading', { name: 'What the rule makes of it' })).toBeFocused();
		await page.keyboard.press('Enter');
	}
	await expect(page.getByRole('heading', { name: 'Results', exact: true })).toBeFocused();
	await expect(page.locator('[data-person=A] .big')).toHaveText(/^\d+ of \d+$/);
	expect(troubles).toEqual([]);
});

test('the results add up: marks that agree, marks to look at again, and marks that the rule leaves open', async ({
	page
}) => {
	await openTraining(page);
	await page.getByRole('radio', { name: '25' }).check();
	await startReview(page);
	await decideAll(
		page,
		Array.from({ length: 25 }, (_, i) => TEN[i % TEN.length]!)
	);
	const block = page.locator('[data-person=A]');
	const [agreed, settled] = (await block.locator('.big').innerText()).match(/\d+/g)!.map(Number) as [number, number];
	const again = await block.locator('li > details').count();
	const open = Number(/leaves (\d+) marks open/.exec(await block.innerText())?.[1]);
	expect(settled - agreed).toBe(again);
	expect(settled + open).toBe(25);
	await block.locator('summary').first().click();
	await expect(block.locator('article[data-rulebook=demo-county]')).toContainText(/Demo rule/);
});

test('two people take the same marks one after the other, and their agreement is told with its kappa', async ({
	page
}) => {
	await openTraining(page);
	await page.getByRole('radio', { name: 'Two people, one after the other' }).check();
	await startReview(page);
	await expect(page.getByText('Person A decides.')).toBeVisible();
	const first = await page.locator('#case-title').innerText();
	await decideAll(page, TEN);
	await expect(page.getByRole('heading', { name: 'Person A is done' })).toBeFocused();
	await expect(page.locator('.results')).toHaveCount(0);
	await page.getByRole('button', { name: 'Person B starts' }).press('Enter');
	await expect(page.locator('#case-title')).toHaveText(first.replace(/\s+/g, ' '));
	await decideAll(page, TEN_OTHERS);
	const between = page.locator('[data-between]');
	// Three of ten keys differ.
	await expect(between.locator('.big')).toHaveText('7 of 10 (70%)');
	await expect(between).toContainText(/Cohen’s kappa: 0\.\d\d/);
	await expect(between.locator('li > details')).toHaveCount(3);
	await expect(between.locator('thead')).toContainText('Kappa');
	await expect(page.locator('[data-person=B]')).toBeVisible();
});

test('a second person opens the first one’s file elsewhere; it holds decisions and nothing else', async ({
	page,
	browser,
	baseURL
}) => {
	await openTraining(page);
	await startReview(page);
	await decideAll(page, TEN);
	const [download] = await Promise.all([
		page.waitForEvent('download'),
		page.getByRole('button', { name: 'Save my decisions as a file' }).click()
	]);
	expect(download.suggestedFilename()).toBe('review-a-10.json');
	const text = await readFile(await download.path(), 'utf8');
	const saved = JSON.parse(text) as Record<string, unknown>;
	expect(Object.keys(saved).sort()).toEqual(['decisions', 'format', 'person', 'rulebook', 'stack']);

	const elsewhere = await browser.newPage({ baseURL: baseURL ?? '' });
	await openTraining(elsewhere, 'es/training/');
	await elsewhere.getByRole('radio', { name: 'Una segunda persona, con el archivo de la primera' }).check();
	const field = elsewhere.locator('input[type=file]');
	await field.setInputFiles({ name: 'other.json', mimeType: 'application/json', buffer: Buffer.from('{"a":1}') });
	await expect(elsewhere.getByText('No es un archivo de la mesa de revisión')).toBeVisible();
	await expect(elsewhere.getByRole('button', { name: 'Empezar a decidir' })).toBeDisabled();
	await field.setInputFiles({ name: 'a.json', mimeType: 'application/json', buffer: Buffer.from(text) });
	await expect(elsewhere.getByText('El archivo tiene 10 decisiones')).toBeVisible();
	await startReview(elsewhere);
	await decideAll(elsewhere, TEN);
	await expect(elsewhere.locator('[data-between] .big')).toHaveText(/^10 de 10 \(100\s?%\)$/);
	await expect(elsewhere.getByText('No difieren en ninguna.')).toBeVisible();
	await elsewhere.close();
});

test('another rulebook may be gone by, and its clauses are shown', async ({ page }) => {
	await openTraining(page);
	await page.getByLabel('Which rulebook').selectOption('us-ak');
	await startReview(page);
	await decide(page, '1');
	await expect(page.locator('article[data-rulebook=us-ak]')).toBeVisible();
});

test('a look at the rule on its own page costs no decision', async ({ page }) => {
	await openTraining(page);
	await startReview(page);
	await decideAll(page, TEN.slice(0, 2));
	await decide(page, '1');
	await page.locator('article[data-rulebook=demo-county] h3 a').click();
	await expect(page).toHaveURL(/rules\/#demo-county$/);
	await page.goBack();
	await expect(page.locator('#case-title')).toContainText('Mark 3 of 10');
	await expect(page.locator('[data-phase=shown]')).toBeVisible();
});

test('a round can be set up once the page’s script runs, and not before, when nothing would come of it', async ({
	page
}) => {
	const letGo = await heldScripts(page);
	await page.goto('en/training/', { waitUntil: 'commit' });
	const longer = page.getByRole('radio', { name: '25' });
	await expect(longer).toBeDisabled();
	letGo();
	await longer.check();
	await page.getByRole('button', { name: 'Start deciding' }).click();
	await expect(page.locator('#case-title')).toContainText('Mark 1 of 25');
});

test('leaving a round asks first, and Tab reaches every decision', async ({ page }) => {
	await openTraining(page);
	await startReview(page);
	await tabTo(page, page.getByRole('button', { name: 'Cannot tell: pass it on' }));
	await page.keyboard.press('Enter');
	await expect(page.locator('[data-phase=shown]')).toBeVisible();
	await page.getByRole('button', { name: 'Leave this round' }).click();
	const dialog = page.getByRole('dialog');
	await dialog.getByRole('button', { name: 'Stay' }).first().click();
	await expect(page.locator('[data-phase=shown]')).toBeVisible();
	await page.getByRole('button', { name: 'Leave this round' }).click();
	await dialog.getByRole('button', { name: 'Leave it' }).click();
	await expect(page.getByRole('heading', { name: 'Training', level: 1 })).toBeFocused();
});

test('the quiz asks in a caller’s words, shows the approved answer with its source, and lists what was missed', async ({
	page
}) => {
	await openTraining(page);
	await page.getByRole('radio', { name: '5', exact: true }).check();
	await page.getByRole('button', { name: 'Start the quiz' }).press('Enter');
	let right = 0;
	for (let i = 0; i < 5; i += 1) {
		await expect(page.locator('#quiz-title')).toHaveText(`Question ${i + 1} of 5`);
		await expect(page.locator('#quiz-title')).toBeFocused();
		await expect(page.locator('.option')).toHaveCount(4);
		await expect(page.locator('.told')).toHaveCount(0);
		await page.keyboard.press(String((i % 4) + 1));
		await expect(page.locator('.told')).toContainText('Source:');
		await expect(page.locator('.option.right')).toContainText(await page.locator('.told h3').innerText());
		if ((await page.locator('.option.right.picked').count()) > 0) right += 1;
		await page.keyboard.press('Enter');
	}
	await expect(page.locator('.end .big')).toHaveText(`${right} of 5`);
	await expect(page.locator('.end details')).toHaveCount(5 - right);
});

test('has no field for a name or any words, and keeps nothing on the device', async ({ page }) => {
	await openTraining(page);
	await page.getByRole('radio', { name: 'A second person, with the first one’s file' }).check();
	const fields = await page
		.locator('input, textarea, [contenteditable]')
		.evaluateAll((all) => all.map((field) => (field as HTMLInputElement).type));
	expect([...new Set(fields)].sort()).toEqual(['file', 'radio']);
	await page.getByRole('radio', { name: 'One person' }).check();
	await startReview(page);
	await decideAll(page, TEN.slice(0, 3));
	const kept = await page.evaluate(() => [localStorage.length, sessionStorage.length, document.cookie, location.hash]);
	expect(kept).toEqual([0, expect.any(Number), '', '']);
	const session = await page.evaluate(() => JSON.stringify(sessionStorage));
	expect(session).not.toMatch(/vote|blank|refer|case|-\d/i);
});

test('the call desk leads to it', async ({ page }) => {
	await page.goto('en/desk/');
	await page.getByRole('link', { name: 'Training: review table and quiz' }).click();
	await expect(page.getByRole('heading', { name: 'Training', level: 1 })).toBeVisible();
});

for (const path of ['en/training/', 'es/training/'])
	test.describe(path, () => {
		test('has nothing for axe to find: start, a mark, a ruling, the results of two, the quiz', async ({ page }) => {
			test.setTimeout(240_000);
			for (const width of [1280, 360]) {
				await page.setViewportSize({ width, height: 800 });
				await openTraining(page, path);
				expect(await axeFindingsOn(page)).toEqual([]);
				await startReview(page);
				expect(await axeFindingsOn(page)).toEqual([]);
				await decide(page, '1');
				expect(await axeFindingsOn(page)).toEqual([]);
				await page.keyboard.press('Enter');
				await decideAll(page, TEN.slice(1));
				await page.locator('.results .acts button').first().click();
				await decideAll(page, TEN_OTHERS);
				await page.locator('[data-between] summary').first().click();
				await expect(page.locator('[data-between] article')).toBeVisible();
				expect(await axeFindingsOn(page)).toEqual([]);
				await page.locator('.results .acts button').last().click();
				await page.locator('form').last().locator('button').click();
				await page.keyboard.press('1');
				await expect(page.locator('.told')).toBeVisible();
				expect(await axeFindingsOn(page)).toEqual([]);
			}
		});

		test('fits a screen of 320 px and a text twice as large', async ({ page }) => {
			for (const [width, size] of [
				[320, '112.5%'],
				[640, '225%']
			] as const) {
				await page.setViewportSize({ width, height: 640 });
				await openTraining(page, path);
				await page.evaluate((fontSize) => (document.documentElement.style.fontSize = fontSize), size);
				expect(await scrollsSideways(page)).toBe(false);
				await startReview(page);
				expect(await scrollsSideways(page)).toBe(false);
				await decide(page, '1');
				expect(await scrollsSideways(page)).toBe(false);
				await page.keyboard.press('Enter');
				await decideAll(page, TEN.slice(1));
				expect(await scrollsSideways(page)).toBe(false);
				await page.locator('.results .acts button').last().click();
				await page.locator('form').last().locator('button').click();
				await page.keyboard.press('1');
				await expect(page.locator('.told')).toBeVisible();
				expect(await scrollsSideways(page)).toBe(false);
			}
		});

		test('works with no network after one visit', async ({ page, context }) => {
			await page.goto(path.replace('training/', ''));
			await expect(page.locator('[data-offline-ready=true]')).not.toBeEmpty();
			await context.setOffline(true);
			await openTraining(page, path);
			await startReview(page);
			await decide(page, '1');
			await expect(page.locator('article[data-rulebook=demo-county]')).toBeVisible();
		});
	});
