import { expect, test, type Locator, type Page } from '@playwright/test';
import en from '../../locales/en.json' with { type: 'json' };
import es from '../../locales/es.json' with { type: 'json' };
import { officeTexts } from '../../src/core/advice/officeTexts';
import { endOf } from '../../src/core/election/dates';
import { county } from '../../src/core/election/demo';
import type { DateId } from '../../src/core/election/election';
import rulebook from '../../src/core/rules/sets/demo-county.json' with { type: 'json' };
import { titleOf } from '../../src/lib/notes/titleOf';
import { contestsOf, fillTarget, openPractice, openPracticeNow, PRACTICE_DAY, targetsOn } from '../support/ballot';
import { axeFindingsOn, scrollsSideways, troublesOf } from '../support/screen';

test.use({ viewport: { width: 1280, height: 900 } });

const contests = contestsOf();
const place = contests.findIndex(({ id }) => id === 'treasurer');
const treasurer = contests[place]!;
const first = contests.slice(0, place).flatMap(({ choices }) => choices).length;
const nameOf = (index: number): string => treasurer.choices[index]!.name['en']!;

/** Two filled ovals in one contest, and the note that says so. */
async function markTooMany(page: Page, open = openPractice) {
	await open(page);
	await fillTarget(page, first);
	await fillTarget(page, first + 1);
	const note = page.locator('.margin .note:visible');
	await expect(note).toContainText('Too many');
	return note;
}

/** As a name on the ballot, whole: with the second line where two contests share the first. */
const titles = contests.map((one) => titleOf(one, contests, 'en'));

test('notes with the same heading are told apart by the names of their contests', async ({ page }) => {
	// axe weighs the contrast of every printed line: ten seconds each time on a slow machine.
	test.setTimeout(180_000);
	await openPractice(page);
	await page.getByLabel('When it is read').selectOption('paper');
	await page.getByRole('button', { name: 'Read it now' }).click();
	const notes = page.locator('.margin').getByRole('region');
	await expect(notes).toHaveCount(contests.length);
	for (const title of titles)
		await expect(page.getByRole('region', { name: `${title} Nothing found`, exact: true })).toHaveCount(1);
	// Who sees them reads each title once, beside the note.
	for (const note of await notes.all())
		await expect(note.getByRole('heading', { name: 'Nothing found', exact: true })).toHaveCount(1);
	expect(await axeFindingsOn(page)).toEqual([]);
});

test('a clean mark’s note says only what it needs; one mark too many adds what people would decide and whether anyone would tell', async ({
	page
}) => {
	await openPractice(page);
	await fillTarget(page, first);
	const note = page.locator('.margin .note:visible');
	await expect(note).toContainText(`Likely read: ${nameOf(0)}`);
	const decided = note.getByText('They would find too many marks and read no choice here.');
	const asked = note.getByText('Would anyone tell you?');
	const told = note.getByText('the scanner would likely hand your ballot back');
	for (const part of [decided, asked, told]) await expect(part).toBeHidden();
	expect(
		(await note.locator('p:visible, dt:visible, dd:visible').allInnerTexts()).map((said) => said.trim())
	).not.toContain('');
	await fillTarget(page, first + 1);
	for (const part of [decided, asked, told]) await expect(part).toBeVisible();
	await page.getByLabel('Where your ballot is').selectOption('mailed');
	await expect(asked).toBeHidden();
	await expect(told).toBeHidden();
	await expect(decided).toBeVisible();
});

test('where more may be marked, the note says that nobody would tell', async ({ page }) => {
	await openPractice(page);
	const at = contests.findIndex(({ voteFor }) => voteFor > 1);
	await fillTarget(page, contests.slice(0, at).flatMap(({ choices }) => choices).length);
	const note = page.locator('.margin .note:visible');
	await expect(note).toContainText('more allowed');
	await expect(note.getByText('Would anyone tell you?')).toBeVisible();
	await expect(note.getByText('would likely not hand your ballot back')).toBeVisible();
});

test('the rule behind a note opens: what decides, in plain words and its own, and what did not apply with why', async ({
	page
}) => {
	const note = await markTooMany(page);
	const cite = note.getByRole('button', { name: '(what the rule says)' });
	const named = (await cite.innerText()).split('\n')[0]!.trim();
	const clause = rulebook.clauses.find((one) => one.cite === named)!;
	await cite.click();
	const dialog = page.getByRole('dialog', { name: rulebook.title.en });
	await expect(dialog.getByRole('heading', { name: 'What decides' })).toBeVisible();
	await expect(dialog.getByRole('heading', { name: named, exact: true }).first()).toBeVisible();
	await expect(dialog).toContainText(clause.plain.en);
	await expect(dialog).toContainText(rulebook.caution.en);
	const others = dialog.locator('details');
	await expect(others.getByRole('heading').first()).toBeHidden();
	await others.locator('summary').click();
	const reasons = others.locator('li');
	expect(await reasons.count()).toBeGreaterThan(2);
	// Each clause says what was missing, beside its plain sentence.
	for (const reason of await reasons.all()) expect(await reason.locator('p').count()).toBeGreaterThan(1);
	expect(await axeFindingsOn(page)).toEqual([]);
	await page.keyboard.press('Escape');
	await expect(dialog).toBeHidden();
	await expect(cite).toBeFocused();
});

test('a rule is cited in the page’s own language, in the note and behind it', async ({ page }) => {
	await openPractice(page, 'es/practice/');
	await fillTarget(page, first);
	const cite = page.locator('.margin .note:visible .cite');
	await expect(cite).toContainText('Regla de demostración');
	await cite.click();
	const dialog = page.getByRole('dialog');
	await expect(dialog.getByRole('heading', { name: /^Regla de demostración/ }).first()).toBeVisible();
	await expect(dialog).not.toContainText('Demo rule');
});

test('Escape closes each dialog of the whole ballot, and nothing is thrown', async ({ page, baseURL }) => {
	const troubles = troublesOf(page, baseURL ?? '');
	await markTooMany(page);
	for (const name of ['What the scanner sees', 'Least certain marks first', 'Last time and this time']) {
		await page.getByRole('button', { name }).click();
		const dialog = page.getByRole('dialog');
		await expect(dialog).toBeVisible();
		await page.keyboard.press('Escape');
		await expect(dialog).toHaveCount(0);
	}
	expect(troubles).toEqual([]);
});

/** What is measured, once it changes no more. */
async function settled(measure: () => Promise<number>): Promise<number> {
	let before = Infinity;
	await expect(async () => {
		const now = await measure();
		const stood = now === before;
		before = now;
		expect(stood).toBe(true);
	}).toPass({ intervals: [400] });
	return before;
}

/** The top of a page's paper in the window. */
const topOf = async (paper: Locator): Promise<number> => (await paper.boundingBox())!.y;

/** Fills a target slowly, and returns how far the paper moved at most before the pen went up. */
async function movedUnderPen(page: Page, paper: Locator, target: Locator): Promise<number> {
	const before = await settled(() => topOf(paper));
	const { x, y, width, height } = (await target.boundingBox())!;
	let moved = 0;
	await page.mouse.move(x + 2, y + height / 2);
	await page.mouse.down();
	for (let i = 1; i <= 8; i += 1) {
		await page.mouse.move(x + 2 + ((width - 4) * i) / 8, y + height * (i % 2 === 0 ? 0.3 : 0.7));
		await page.waitForTimeout(60);
		moved = Math.max(moved, Math.abs((await topOf(paper)) - before));
	}
	await page.mouse.up();
	return moved;
}

const pageOf = (page: Page, index: number): Locator => page.locator('.page').nth(index);
const targetsOf = (sheet: Locator): Locator => sheet.locator('svg.print g[fill="none"] path');

test('the second page stays where it is under the pen, however tall the notes of the first', async ({ page }) => {
	await openPractice(page);
	const onFirstPage = await targetsOf(pageOf(page, 0)).count();
	// The contest at the end of the page: its note is the one that needs room beyond it.
	for (const index of [onFirstPage - 3, onFirstPage - 2, 0, onFirstPage - 1]) await fillTarget(page, index);
	await expect(page.locator('.margin .note:visible').last()).toContainText('Too many');
	const paper = pageOf(page, 1).locator('.paper');
	const target = targetsOf(pageOf(page, 1)).first();
	// The notes have taken their room before anybody goes on to the next page.
	await settled(() => topOf(paper));
	await target.scrollIntoViewIfNeeded();
	const before = await settled(() => topOf(paper));
	expect(await movedUnderPen(page, paper, target)).toBeLessThan(1);
	const note = pageOf(page, 1).locator('.note:visible');
	await expect(note).toContainText('Likely read');
	expect(Math.abs((await settled(() => topOf(paper))) - before)).toBeLessThan(1);
});

test('room below the paper that no note needs any more is given back', async ({ page }) => {
	await openPractice(page);
	const count = await page.locator('svg.print g[fill="none"] path').count();
	const height = () => page.evaluate(() => document.documentElement.scrollHeight);
	await fillTarget(page, count - 1);
	const note = page.locator('.page').last().locator('.note:visible');
	await expect(note).toContainText('Likely read');
	const low = await settled(height);
	await fillTarget(page, count - 2);
	await expect(note).toContainText('both marked');
	await expect.poll(height).toBeGreaterThan(low + 100);
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(note).toContainText('Likely read');
	await expect.poll(height).toBeLessThan(low + 20);
});

test('all notes that come at once on the second page find their room: none lies over the next page', async ({
	page
}) => {
	await openPractice(page);
	await page.getByLabel('When it is read').selectOption('paper');
	const targets = page.locator('svg.print g[fill="none"] path');
	await fillTarget(page, 0);
	await fillTarget(page, (await targets.count()) - 1);
	await page.getByRole('button', { name: 'Read it now' }).first().click();
	await expect(pageOf(page, 0).locator('.note:visible')).toHaveCount(await pageOf(page, 0).locator('.note').count());
	const overlap = () =>
		page.evaluate(() => {
			const [first, second] = document.querySelectorAll('.page');
			const bottoms = [...first!.querySelectorAll('.note:not(.unsaid)')].map((n) => n.getBoundingClientRect().bottom);
			return Math.max(...bottoms) - second!.getBoundingClientRect().top;
		});
	await settled(overlap);
	expect(await overlap()).toBeLessThanOrEqual(0);
});

/** The office's steps for a ballot in hand, as they read on a day. */
const stepsOn = (day: Date): readonly string[] =>
	officeTexts(county, 'instructions.correction.steps.holding', day.getTime(), 'en');

const endsOf = (id: DateId): Date => new Date(endOf(county, id)!);

test('what the office asks names its dates, and changes on an open page when one has passed', async ({ page }) => {
	const day = endsOf('replacement.mail');
	await page.clock.install({ time: day.getTime() - 60_000 });
	const note = await markTooMany(page, openPracticeNow);
	await expect(note.getByRole('listitem')).toHaveText(stepsOn(PRACTICE_DAY));
	await expect(note).toContainText('until Monday, September 6, 5 PM');
	await page.clock.fastForward(120_000);
	await expect(note.getByRole('listitem')).toHaveText(stepsOn(day));
	await expect(note).toContainText('too late now to mail');
	expect(await axeFindingsOn(page)).toEqual([]);
});

test('the office’s number calls it, in the note and in the steps behind it', async ({ page }) => {
	const note = await markTooMany(page);
	const call = note.getByRole('link', { name: county.office.phone });
	await expect(call).toHaveAttribute('href', 'tel:5550142');
	await note.getByRole('button', { name: 'Show me how to fix it' }).click();
	await expect(page.getByRole('dialog').getByRole('link', { name: county.office.phone })).toBeVisible();
});

test('once voting has ended nothing is asked for, and the walk-through is gone', async ({ page }) => {
	await page.clock.setFixedTime(endsOf('return'));
	const note = await markTooMany(page, openPracticeNow);
	await expect(note).toContainText('The time to vote ended on Tuesday, September 14, 8 PM');
	await expect(note.getByText('Would anyone tell you?')).toBeHidden();
	await expect(note).toContainText(county.office.phone);
	await expect(note.getByRole('listitem')).toHaveCount(0);
	await expect(note).not.toContainText('do this');
	// What follows the words of a note has come by then.
	await expect(note.locator('.loupe')).toBeVisible();
	await expect(note.getByRole('button', { name: 'Show me how to fix it' })).toHaveCount(0);
});

test('the way to put it right is shown step by step, on an example, beside the office’s own steps', async ({
	page
}) => {
	const note = await markTooMany(page);
	await note.getByRole('button', { name: 'Show me how to fix it' }).click();
	const dialog = page.getByRole('dialog', { name: 'How to put it right' });
	await expect(dialog).toContainText('Drawn on an example, not on your ballot.');
	for (const step of stepsOn(PRACTICE_DAY)) await expect(dialog).toContainText(step);
	const of = Number(/Step 1 of (\d+)/.exec(await dialog.innerText())?.[1]);
	expect(of).toBeGreaterThan(1);
	await expect(dialog.getByRole('button', { name: 'Back' })).toBeDisabled();
	const said = new Set<string>();
	for (let number = 1; number <= of; number += 1) {
		await expect(dialog).toContainText(`Step ${number} of ${of}`);
		said.add(await dialog.locator('.step').innerText());
		if (number < of) await dialog.getByRole('button', { name: 'Next' }).click();
	}
	expect(said.size).toBe(of);
	expect(await axeFindingsOn(page)).toEqual([]);
	await dialog.getByRole('button', { name: 'Try it on my ballot' }).click();
	await expect(dialog).toBeHidden();
	// Showing it puts nothing on the voter's ballot.
	await expect(note).toContainText('Too many');
});

test('the scanner’s view shows the grey page and says the same in words, larger and smaller', async ({ page }) => {
	await markTooMany(page);
	await page.getByRole('button', { name: 'What the scanner sees' }).click();
	const dialog = page.getByRole('dialog', { name: 'What the scanner sees' });
	for (const index of [0, 1])
		await expect(dialog.getByRole('listitem').filter({ hasText: nameOf(index) })).toContainText('Likely read.');
	const canvas = dialog.locator('canvas');
	const darkest = () =>
		canvas.evaluate((shown: HTMLCanvasElement) => {
			if (shown.width < 400) return 255;
			const { data } = shown.getContext('2d')!.getImageData(0, 0, shown.width, shown.height);
			let least = 255;
			for (let i = 0; i < data.length; i += 4) least = Math.min(least, data[i]!);
			return least;
		});
	await expect.poll(darkest).toBeLessThan(100);
	const before = (await canvas.boundingBox())!.width;
	await dialog.getByRole('button', { name: 'Larger' }).click();
	await expect.poll(async () => (await canvas.boundingBox())!.width).toBeGreaterThan(before * 1.3);
	expect(await axeFindingsOn(page)).toEqual([]);
});

test('the least certain mark comes first, with a way to its contest', async ({ page }) => {
	await openPractice(page);
	await fillTarget(page, 0);
	await page.locator('svg.print:visible g[fill="none"] path').nth(first).scrollIntoViewIfNeeded();
	const target = (await targetsOn(page))[first]!;
	// A short stroke: some ink, far from a fill.
	await page.mouse.move(target.x + target.width * 0.3, target.y + target.height * 0.5);
	await page.mouse.down();
	await page.mouse.move(target.x + target.width * 0.55, target.y + target.height * 0.5, { steps: 4 });
	await page.mouse.up();
	await expect(page.locator('.margin .note:visible')).toHaveCount(2);
	await page.getByRole('button', { name: 'Least certain marks first' }).click();
	const dialog = page.getByRole('dialog', { name: 'Least certain marks first' });
	const items = dialog.getByRole('listitem');
	await expect(items).toHaveCount(2);
	await expect(items.first()).toContainText(treasurer.title['en']!);
	await expect(items.last()).toContainText('likely read');
	expect(await axeFindingsOn(page)).toEqual([]);
	await items
		.first()
		.getByRole('button', { name: /Go to this contest/ })
		.click();
	await expect(dialog).toBeHidden();
	await expect(page.locator('.note.current:visible')).toContainText(treasurer.title['en']!);
});

for (const [lang, words] of [
	['en', en],
	['es', es]
] as const)
	test(`last time’s ballot stands beside this one in ${lang}, with both traps of the old habit`, async ({ page }) => {
		// With no motion: a mark half drawn or faded in has no contrast to measure.
		await page.emulateMedia({ reducedMotion: 'reduce' });
		await openPractice(page, `${lang}/practice/`);
		const button = page.getByRole('button', { name: words.practice.whole.habit });
		await button.click();
		const dialog = page.getByRole('dialog', { name: words.practice.whole.habit });
		await expect(dialog.getByRole('heading', { name: words.practice.whole.habit })).toBeVisible();
		const { oldHabit } = words.reading;
		const [last, now] = [county.previousTarget!, county.target];
		for (const drawn of [oldHabit.before[last.shape], oldHabit.now[now.shape]])
			await expect(dialog.getByRole('img', { name: drawn, exact: true })).toBeVisible();
		for (const said of [oldHabit.lastTime, oldHabit.thisTime, oldHabit.side[last.side], oldHabit.side[now.side]])
			await expect(dialog).toContainText(said);
		// The line that joined the arrow, and a mark on the side where the target was.
		for (const trap of [oldHabit[`joined_${now.shape}`], oldHabit[`otherSide_${now.shape}`]]) {
			await expect(dialog.getByRole('img', { name: trap, exact: true })).toBeVisible();
			await expect(dialog.getByRole('figure').filter({ hasText: trap })).toContainText(oldHabit.trap);
		}
		expect(await axeFindingsOn(page)).toEqual([]);
		await page.keyboard.press('Escape');
		await expect(dialog).toBeHidden();
		await expect(button).toBeFocused();
	});

test.describe('on a phone', () => {
	test.use({ viewport: { width: 360, height: 740 } });

	test('the way to put it right opens at its first words, and each press of Next leaves the drawing in sight', async ({
		page
	}) => {
		await openPractice(page);
		await page.getByRole('button', { name: 'Mark without drawing' }).click();
		for (const index of [0, 1]) await page.getByRole('checkbox').nth(index).press('f');
		await page.getByRole('button', { name: 'Show me how to fix it' }).click();
		const dialog = page.getByRole('dialog');
		await expect(dialog.getByRole('heading', { name: 'How to put it right' })).toBeInViewport({ ratio: 1 });
		const drawing = dialog.getByRole('img');
		await expect(drawing).toBeInViewport({ ratio: 1 });
		await dialog.getByRole('button', { name: 'Next' }).click();
		await expect(dialog).toContainText('Step 2 of');
		await expect(drawing).toBeInViewport({ ratio: 1 });
	});

	test('a dialog keeps its words inside when the text is large', async ({ page }) => {
		await openPractice(page, 'es/practice/');
		await page.getByRole('button', { name: 'Marcar sin dibujar' }).click();
		for (const index of [0, 1]) await page.getByRole('checkbox').nth(index).press('f');
		await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
		const note = page.locator('.slip:visible').first();
		expect(await note.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThanOrEqual(0);
		await page.locator('.slip .cite').click();
		const dialog = page.getByRole('dialog');
		await expect(dialog.locator('h3').first()).toBeVisible();
		for (const open of ['Lo que ve el escáner', 'Primero las marcas menos seguras', undefined]) {
			expect(await dialog.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThanOrEqual(0);
			await page.keyboard.press('Escape');
			if (open !== undefined) await page.getByRole('button', { name: open }).click();
		}
	});
});

test.describe('at 320 px, in Spanish', () => {
	test.use({ viewport: { width: 320, height: 700 } });

	test('no dialog has to be scrolled sideways', async ({ page }) => {
		await openPractice(page, 'es/practice/');
		await page.getByRole('button', { name: 'Marcar sin dibujar' }).click();
		for (const index of [0, 1]) await page.getByRole('checkbox').nth(index).press('f');
		await page.locator('.slip .cite').click();
		const dialog = page.getByRole('dialog');
		const close = dialog.getByRole('button', { name: 'Cerrar' });
		await expect(dialog.locator('h3').first()).toBeVisible();
		for (const open of ['Lo que ve el escáner', 'Primero las marcas menos seguras', undefined]) {
			expect(await scrollsSideways(page)).toBe(false);
			const body = dialog.locator('.body');
			expect(await body.evaluate((one) => one.scrollWidth <= one.clientWidth)).toBe(true);
			await close.click();
			if (open !== undefined) await page.getByRole('button', { name: open }).click();
		}
	});
});
