import { readFile } from 'node:fs/promises';
import { expect, test, type Page } from '@playwright/test';
import { fair } from '../../src/core/election/demo';
import { QUIET_CHOICES_S, WARNING_CHOICES_S, type IdleTimes } from '../../src/lib/event/idle';
import { fillTarget, tabTo } from '../support/ballot';
import { axeFindingsOn, scrollsSideways, troublesOf } from '../support/screen';

const DAY = new Date('2027-08-21T15:00:00Z');
const TABLETS = [
	{ width: 820, height: 1180 },
	{ width: 1180, height: 820 }
];

const PATIENT: IdleTimes = { quietS: Math.max(...QUIET_CHOICES_S), warningS: Math.max(...WARNING_CHOICES_S) };

/** The first contest: one vote, with the targets numbered from 0 down the page. */
const [pie] = fair.contests;

interface Tally {
	readonly sheets: Record<string, number>;
	readonly before: Record<string, number>;
	readonly after: Record<string, number>;
}

const tallyOn = (page: Page): Promise<Tally> =>
	page.evaluate(() => JSON.parse(localStorage.getItem('fairhand.event') ?? '{}') as Tally);

/** Opens the languages of an event on its day. */
async function openEvent(page: Page, path = 'en/event/', day = DAY): Promise<void> {
	await page.clock.install({ time: day });
	await page.goto(path);
	await expect(page.locator('.event[data-mounted=true]')).toBeVisible();
}

/** Chooses a language and waits for a sheet that is read when asked. */
async function begin(page: Page, language = 'English'): Promise<void> {
	await page.getByRole('button', { name: new RegExp(`^${language}`) }).click();
	await expect(page.locator('.paper-step[data-ready=true]')).toBeVisible();
}

/** Has the sheet read and waits until the person is at what was found. */
async function readNow(page: Page): Promise<void> {
	await page.getByRole('button', { name: 'Read it now' }).click();
	await expect(page.getByRole('heading', { name: 'How your sheet would be read' })).toBeFocused();
}

/** From now on the clock goes only where a test sends it, so that what a busy machine takes is not counted. */
async function holdClock(page: Page): Promise<void> {
	await page.clock.pauseAt(await page.evaluate(() => Date.now() + 5_000));
}

/** Questions of this kind to the reader are kept back until the function it resolves to is called. */
async function heldQuestions(page: Page, kind: string): Promise<() => Promise<void>> {
	await page.evaluate((held) => {
		const kept: (() => void)[] = [];
		const post = Reflect.get(Worker.prototype, 'postMessage') as (this: Worker, ...sent: unknown[]) => void;
		Worker.prototype.postMessage = function (this: Worker, ...sent: unknown[]) {
			if ((sent[0] as { kind: string }).kind === held)
				kept.push(() => {
					post.apply(this, sent);
				});
			else post.apply(this, sent);
		};
		Object.assign(globalThis, {
			letGo: () => {
				for (const send of kept) send();
			}
		});
	}, kind);
	return () =>
		page.evaluate(() => {
			(globalThis as unknown as { letGo: () => void }).letGo();
		});
}

const done = (page: Page): Promise<void> => page.getByRole('button', { name: 'I am done' }).click();

/** As many sheets in the tally as would come from a long day. */
async function putTally(page: Page, tally: object): Promise<void> {
	await page.evaluate((text) => {
		localStorage.setItem('fairhand.event', text);
	}, JSON.stringify(tally));
}

test.use({ viewport: TABLETS[0]! });

test('one mark too many is tallied before feedback, and no more once it is put right on a fresh sheet', async ({
	page,
	context,
	baseURL
}) => {
	const troubles = troublesOf(page, baseURL ?? '');
	await openEvent(page);
	await begin(page);
	await fillTarget(page, 0);
	await fillTarget(page, 1);
	// As with real paper: nothing is said, and nothing but the sheet's start is tallied.
	await expect(page.getByText('Too many marks')).toHaveCount(0);
	expect(await tallyOn(page)).toMatchObject({ sheets: { started: 1 }, before: {}, after: {} });
	await readNow(page);
	await expect(page.getByRole('heading', { name: 'How your sheet would be read' })).toBeFocused();
	await expect(page.locator('#for-best-pie')).toContainText('Too many marks');
	expect(await tallyOn(page)).toMatchObject({ sheets: { started: 1, before: 1 }, before: { 'too-many': 1 } });
	await page.getByRole('button', { name: 'Fresh sheet' }).click();
	await expect(page.getByRole('button', { name: 'Read it now' })).toBeDisabled();
	await fillTarget(page, 1);
	await readNow(page);
	await expect(page.locator('#for-best-pie')).toContainText(`Likely read: ${pie!.choices[1]!.name['en']!}`);
	await done(page);
	await expect(page.getByRole('heading', { name: 'Thank you for practicing' })).toBeFocused();
	await expect(page.getByText('Every mark on your sheet was clear.')).toBeVisible();
	expect(await tallyOn(page)).toEqual({
		format: 'fairhand-event/1',
		since: '2027-08-21',
		sheets: { started: 2, before: 1, after: 1 },
		before: { 'too-many': 1 },
		after: {}
	});
	await page.getByRole('button', { name: 'Next person' }).click();
	await begin(page);
	await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();

	const kept = await page.evaluate(async () => ({
		local: Object.entries(localStorage).flat().join(' '),
		session: Object.keys(sessionStorage).filter((key) => !key.startsWith('sveltekit:')),
		databases: (await indexedDB.databases()).length,
		state: JSON.stringify(history.state),
		address: location.href
	}));
	expect(kept.session).toEqual([]);
	expect(kept.databases).toBe(0);
	expect(await context.cookies()).toEqual([]);
	const told = `${kept.local} ${kept.state} ${kept.address}`;
	const secret = ['points', 'stroke', ...fair.contests.flatMap(({ id, choices }) => [id, ...choices.map((c) => c.id)])];
	expect(secret.filter((word) => new RegExp(`\\b${word}\\b`).test(told))).toEqual([]);
	expect(troubles).toEqual([]);
});

test('a shared tablet names the office’s number and does not call it', async ({ page }) => {
	await openEvent(page, 'en/event/', new Date('2027-08-22T15:00:00Z'));
	await begin(page);
	await fillTarget(page, 0);
	await fillTarget(page, 1);
	await readNow(page);
	await expect(page.locator('#for-best-pie')).toContainText(fair.office.phone);
	await expect(page.locator('a[href^="tel:"]')).toHaveCount(0);
});

test('a mistake put right on the same sheet is tallied as what it became', async ({ page }) => {
	await openEvent(page);
	await begin(page);
	await fillTarget(page, 0);
	await fillTarget(page, 1);
	await readNow(page);
	await expect(page.locator('#for-best-pie')).toBeVisible();
	await page.getByRole('button', { name: 'Mark without drawing' }).click();
	const group = page.getByRole('group', { name: new RegExp(pie!.title['en']!) });
	await group.getByRole('checkbox').nth(1).press('k');
	await expect(page.locator('#for-best-pie')).toHaveCount(0);
	await readNow(page);
	await expect(page.locator('#for-best-pie')).toBeVisible();
	await done(page);
	await expect(page.getByText('Now you know where to look twice')).toBeVisible();
	const { before, after } = await tallyOn(page);
	expect(before).toEqual({ 'too-many': 1 });
	expect(after).toEqual({ 'crossed-out': 1 });
});

test('a fresh sheet lies at its top at once, however long the reader takes to clear the last one', async ({ page }) => {
	await openEvent(page);
	await begin(page);
	await fillTarget(page, 0);
	await readNow(page);
	await expect.poll(() => page.evaluate(() => window.scrollY)).toBeGreaterThan(0);
	await heldQuestions(page, 'set');
	await page.getByRole('button', { name: 'Fresh sheet' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
	expect(await page.evaluate(() => window.scrollY)).toBe(0);
});

test('a list opened while the reader still works stays open', async ({ page }) => {
	await openEvent(page);
	await begin(page);
	await fillTarget(page, 0);
	const letGo = await heldQuestions(page, 'add');
	await fillTarget(page, 1);
	await page.getByRole('button', { name: 'Read it now' }).click();
	await page.getByRole('button', { name: 'Mark without drawing' }).click();
	await expect(page.getByRole('checkbox').first()).toBeVisible();
	await letGo();
	await expect.poll(async () => (await tallyOn(page)).before).toEqual({ 'too-many': 1 });
	await expect(page.getByRole('checkbox').first()).toBeVisible();
	await expect(page.getByRole('heading', { name: 'Mark without drawing' })).toBeFocused();
});

test('asks after a minute whether somebody is there; one press keeps the sheet, and no answer starts over', async ({
	page
}) => {
	await openEvent(page);
	await begin(page);
	await fillTarget(page, 0);
	await fillTarget(page, 1);
	await readNow(page);
	await expect(page.locator('#for-best-pie')).toBeVisible();
	await holdClock(page);
	await page.clock.fastForward(50_000);
	await expect(page.getByRole('dialog')).toHaveCount(0);
	await page.clock.fastForward(12_000);
	const question = page.getByRole('dialog', { name: 'Still there?' });
	await expect(question).toBeVisible();
	await expect(question.getByRole('alert')).toContainText('In 20 seconds');
	await question.getByRole('button', { name: 'I am still here' }).first().click();
	await expect(question).toHaveCount(0);
	await expect(page.locator('#for-best-pie')).toBeVisible();
	await page.clock.fastForward(61_000);
	await expect(question).toBeVisible();
	await page.keyboard.press('Escape');
	await expect(question).toHaveCount(0);
	await page.clock.fastForward(61_000);
	await expect(question).toBeVisible();
	await page.clock.fastForward(10_000);
	await expect(question.getByRole('alert')).toContainText('In 10 seconds');
	await page.clock.fastForward(11_000);
	await expect(page.locator('.event')).toHaveAttribute('data-step', 'languages');
	await expect(page.getByRole('dialog')).toHaveCount(0);
	// Whoever went away handed the tablet over: their sheet is tallied as it lay there.
	await expect.poll(async () => (await tallyOn(page)).after).toEqual({ 'too-many': 1 });
	await begin(page);
	await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('who answers by keys is back where they were', async ({ page }) => {
	await openEvent(page);
	await begin(page);
	await holdClock(page);
	const place = page.getByRole('button', { name: 'Mark without drawing' });
	const question = page.getByRole('dialog', { name: 'Still there?' });
	for (const button of [0, 1]) {
		await place.focus();
		await page.clock.fastForward(61_000);
		await expect(question).toBeVisible();
		await question.getByRole('button', { name: 'I am still here' }).nth(button).press('Enter');
		await expect(question).toHaveCount(0);
		await expect(place).toBeFocused();
	}
});

test('Escape answers at once, however late the browser says that the question is closed', async ({ page }) => {
	await openEvent(page);
	await begin(page);
	await holdClock(page);
	// A busy tablet: what waits for the dialog's own event waits for ever.
	await page.evaluate(() => {
		window.addEventListener(
			'close',
			(event) => {
				event.stopImmediatePropagation();
			},
			{ capture: true }
		);
	});
	const question = page.getByRole('dialog', { name: 'Still there?' });
	await page.clock.fastForward(61_000);
	await expect(question).toBeVisible();
	await page.keyboard.press('Escape');
	await expect(question).toHaveCount(0);
	await page.clock.fastForward(61_000);
	await expect(question).toBeVisible();
	await question.getByRole('button', { name: 'I am still here' }).last().click();
	await expect(question).toHaveCount(0);
	await page.clock.fastForward(61_000);
	await expect(question).toBeVisible();
});

test('a tablet that slept starts over at the first touch', async ({ page }) => {
	await openEvent(page);
	await begin(page);
	await fillTarget(page, 0);
	// Time passes and no timer runs.
	await page.clock.setSystemTime(new Date(DAY.getTime() + 3_600_000));
	await page.getByRole('heading', { level: 1 }).click();
	await expect(page.locator('.event')).toHaveAttribute('data-step', 'languages');
});

test('staff set how long it waits, and it stays set after a reload', async ({ page }) => {
	await openEvent(page);
	await page.getByRole('button', { name: 'For staff' }).click();
	await page.getByLabel('Ask “Still there?” after').selectOption('10 minutes');
	await page.reload();
	await expect(page.locator('.event[data-mounted=true]')).toBeVisible();
	await begin(page);
	// The wait counts from this touch.
	await page.getByRole('heading', { level: 1 }).click();
	await holdClock(page);
	await page.clock.fastForward(590_000);
	await expect(page.getByRole('dialog')).toHaveCount(0);
	await page.clock.fastForward(12_000);
	await expect(page.getByRole('dialog', { name: 'Still there?' })).toBeVisible();
});

test('staff see the tally, save it with numbers under 10 held back, and clear it after a question', async ({
	page
}) => {
	await openEvent(page);
	await page.getByRole('button', { name: 'For staff' }).click();
	await expect(page.getByText('No sheets yet.')).toBeVisible();
	await putTally(page, {
		format: 'fairhand-event/1',
		since: '2027-08-21',
		sheets: { started: 64, before: 41, after: 39 },
		before: { 'too-many': 23, 'crossed-out': 15, 'faint-mark': 4, folded: 7 },
		after: { 'too-many': 5, 'crossed-out': 21, erased: 8 }
	});
	await page.reload();
	await expect(page.locator('.event[data-mounted=true]')).toBeVisible();
	await page.getByRole('button', { name: 'For staff' }).click();
	await expect(page.getByText('Sheets started: 64')).toBeVisible();
	await expect(page.getByRole('row', { name: /^More marks than allowed/ })).toHaveText(/23\s*held back/);
	await expect(page.getByRole('row', { name: /^Crossed out/ })).toHaveText(/15\s*21/);
	await expect(page.getByRole('row', { name: /^Erased/ })).toHaveText(/0\s*held back/);
	await expect(page.getByRole('row', { name: /^All sheets/ })).toHaveText(/41\s*39/);
	for (const [button, ending] of [
		['Save as CSV', 'csv'],
		['Save as JSON', 'json']
	] as const) {
		const [download] = await Promise.all([
			page.waitForEvent('download'),
			page.getByRole('button', { name: button }).click()
		]);
		expect(download.suggestedFilename()).toBe(`event-demo-fair-2027-08-21.${ending}`);
		const text = await readFile(await download.path(), 'utf8');
		expect(text).toContain('too-many');
		expect(text).toContain('suppressed');
		expect(text).toMatch(/\b23\b/);
		expect(text).not.toMatch(/(,|": )[1-9]\s/);
	}
	await page.getByRole('button', { name: 'Clear the tally' }).click();
	expect((await tallyOn(page)).sheets['started']).toBe(64);
	await page.getByRole('dialog').getByRole('button', { name: 'Clear it' }).click();
	await expect(page.getByText('No sheets yet.')).toBeVisible();
	expect(await page.evaluate(() => localStorage.length)).toBe(0);
});

test('paper flies for a clear sheet, but not for who wants no motion', async ({ page }) => {
	for (const reducedMotion of ['no-preference', 'reduce'] as const) {
		await page.emulateMedia({ reducedMotion });
		await openEvent(page);
		await begin(page);
		await fillTarget(page, 1);
		await readNow(page);
		await done(page);
		await expect(page.getByText('Every mark on your sheet was clear.')).toBeVisible();
		if (reducedMotion === 'no-preference')
			await expect(page.locator('.thanks canvas')).toHaveAttribute('data-fired', 'true');
		else {
			await page.waitForTimeout(500);
			await expect(page.locator('[data-fired]')).toHaveCount(0);
		}
	}
});

test('another language is begun in its own words, and a link does not take ink without asking', async ({ page }) => {
	await openEvent(page);
	await page.getByRole('button', { name: /^Español/ }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Marque esta boleta de la feria');
	await expect(page).toHaveURL(/\/es\/event\/$/);
	await fillTarget(page, 0);
	await page.getByRole('link', { name: 'English' }).click();
	await expect(page.getByRole('dialog', { name: '¿Tomar una hoja nueva?' })).toBeVisible();
	await page.getByRole('button', { name: 'Conservar mis marcas' }).first().click();
	await expect(page.getByRole('button', { name: 'Leerla ahora' })).toBeEnabled();
});

test('the whole way is open to the keyboard', async ({ page }) => {
	await openEvent(page);
	await tabTo(page, page.getByRole('button', { name: /^English/ }));
	await page.keyboard.press('Enter');
	await expect(page.locator('.paper-step[data-ready=true]')).toBeVisible();
	await tabTo(page, page.getByRole('button', { name: 'Mark without drawing' }));
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { name: 'Mark without drawing' })).toBeFocused();
	await tabTo(page, page.getByRole('checkbox').first());
	await page.keyboard.press('f');
	await tabTo(page, page.getByRole('button', { name: 'Read it now' }));
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { name: 'How your sheet would be read' })).toBeFocused();
	await expect(page.getByRole('status').filter({ hasText: 'Likely read' })).not.toHaveCount(0);
	await tabTo(page, page.getByRole('button', { name: 'I am done' }));
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { name: 'Thank you for practicing' })).toBeFocused();
});

for (const { path, read, next } of [
	{ path: 'en/event/', read: 'Read it now', next: 'I am done' },
	{ path: 'es/event/', read: 'Leerla ahora', next: 'Ya terminé' }
])
	test.describe(path, () => {
		const language = path.startsWith('en') ? 'English' : 'Español';

		test('its first question fits a phone with large text', async ({ page }) => {
			await page.setViewportSize({ width: 360, height: 740 });
			await openEvent(page, path);
			await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
			expect(await scrollsSideways(page)).toBe(false);
			const wider = await page
				.locator('.welcome button')
				.evaluateAll((all) => all.map((button) => button.scrollWidth - button.clientWidth));
			expect(Math.max(...wider)).toBeLessThanOrEqual(0);
		});

		for (const size of [
			...TABLETS,
			{ width: 1280, height: 800 },
			{ width: 360, height: 740 },
			{ width: 320, height: 640 }
		])
			test(`has nothing for axe to find, is wide enough and easy to hit at every step: ${size.width} px`, async ({
				page
			}) => {
				test.setTimeout(240_000);
				await page.emulateMedia({ reducedMotion: 'reduce' });
				await page.setViewportSize(size);
				// What axe takes on a busy machine counts too: the tablet waits as long as it can be told to.
				await page.addInitScript((times) => {
					localStorage.setItem('fairhand.event.times', JSON.stringify(times));
				}, PATIENT);
				await openEvent(page, path);
				const look = async (step: string): Promise<void> => {
					expect([step, size.width, await axeFindingsOn(page)]).toEqual([step, size.width, []]);
					expect([step, size.width, await scrollsSideways(page)]).toEqual([step, size.width, false]);
					const small = await page.locator('.event button:visible').evaluateAll((all) =>
						all
							.map((button) => ({ words: button.textContent.trim(), box: button.getBoundingClientRect() }))
							.filter(({ box }) => box.height < 43.5 || box.width < 43.5)
							.map(({ words }) => words)
					);
					expect([step, size.width, small]).toEqual([step, size.width, []]);
				};
				await look('languages');
				await begin(page, language);
				await look('paper');
				await page
					.locator('.paper')
					.first()
					.evaluate((paper) => {
						paper.scrollIntoView({ block: 'start' });
					});
				await fillTarget(page, 0);
				await fillTarget(page, 1);
				await page.getByRole('button', { name: read }).click();
				await expect(page.locator('.slip.look').first()).toBeVisible();
				await look('notes');
				await page.clock.fastForward(1000 * PATIENT.quietS + 1000);
				await expect(page.getByRole('dialog')).toBeVisible();
				await look('question');
				await page.keyboard.press('Escape');
				await page.getByRole('button', { name: next }).click();
				await expect(page.locator('.thanks')).toBeVisible();
				await look('thanks');
				await page.locator('.thanks button').click();
				await page.locator('.staff button').click();
				await look('staff');
			});

		test('works with no network after one visit', async ({ page, context }) => {
			await page.goto(path.replace('event/', ''));
			await expect(page.locator('[data-offline-ready=true]')).not.toBeEmpty();
			await context.setOffline(true);
			await openEvent(page, path);
			await begin(page, language);
			await fillTarget(page, 0);
			await page.getByRole('button', { name: read }).click();
			await expect(page.locator('#for-best-pie')).toBeVisible();
			await page.getByRole('button', { name: next }).click();
			await expect(page.locator('.thanks canvas')).toHaveAttribute('data-fired', 'true');
			expect((await tallyOn(page)).sheets).toEqual({ started: 1, before: 1, after: 1 });
		});
	});
