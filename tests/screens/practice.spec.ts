import { expect, test, type Page } from '@playwright/test';
import en from '../../locales/en.json' with { type: 'json' };
import { county } from '../../src/core/election/demo';
import '../../src/core/layout/font/bundled';
import { layOut } from '../../src/core/layout/layOutBallot';
import rulebook from '../../src/core/rules/sets/demo-county.json' with { type: 'json' };
import {
	contestsOf,
	drawWithMouse,
	fillOf,
	fillTarget,
	Fingers,
	inkOn,
	openPractice,
	tabTo,
	targetsOn
} from '../support/ballot';
import { axeFindingsOn, heldScripts, scrollsSideways, troublesOf } from '../support/screen';

const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };
const screens = [
	{ name: 'desk', use: { viewport: { width: 1280, height: 900 } } },
	{ name: 'phone', use: phone }
];

/** More than ink takes until it is dry and undo is offered. */
const DRYING_MS = 400;

/** The contest with the most familiar form: one vote, four names. */
const contests = contestsOf();
const place = contests.findIndex(({ id }) => id === 'treasurer');
const treasurer = contests[place]!;
const before = contests.slice(0, place).flatMap(({ choices }) => choices).length;
const nameOf = (index: number): string => treasurer.choices[index]!.name['en']!;

/** The addresses of everything in the browser's caches, each after the name of its cache. */
const cachedBy = (page: Page): Promise<string[]> =>
	page.evaluate(async () => {
		const all = await Promise.all(
			(await caches.keys()).map(async (name) => {
				const kept = await (await caches.open(name)).keys();
				return kept.map(({ url }) => `${name} ${url}`);
			})
		);
		return all.flat().sort();
	});

test.describe('on a desk', () => {
	test.use(screens[0]!.use);

	test('what to practice with can be chosen once the page’s script runs, and not before, when nothing would come of it', async ({
		page
	}) => {
		const letGo = await heldScripts(page);
		await page.goto('en/practice/', { waitUntil: 'commit' });
		const lists = page.locator('.setup select');
		await expect(lists.first()).toBeVisible();
		await expect(lists).toHaveCount(4);
		await expect(page.locator('.setup select:disabled')).toHaveCount(4);
		letGo();
		await expect(page.locator('.setup select:enabled')).toHaveCount(4);
		await page.getByLabel('When it is read').selectOption('paper');
		await expect(page.getByRole('button', { name: 'Read it now' })).toBeVisible();
	});

	test('a filled oval gets its note, and nothing of it is kept, sent, on the console or in the address', async ({
		page,
		context,
		baseURL
	}) => {
		const troubles = troublesOf(page, baseURL ?? '');
		// Of the page and of its workers.
		const logged: string[] = [];
		page.on('console', (message) => logged.push(message.text()));
		await openPractice(page);
		// The app's own copy is complete before the first mark: what is in it later would be of the mark.
		await expect(page.locator('[data-offline-ready=true]')).toBeAttached();
		const copies = await cachedBy(page);
		expect(copies.length).toBeGreaterThan(10);
		const address = page.url();
		const requests: string[] = [];
		page.on('request', (request) => requests.push(request.url()));
		await fillTarget(page, before);
		const note = page.locator('.margin .note:visible');
		await expect(note).toHaveCount(1);
		await expect(note).toContainText(`Likely read: ${nameOf(0)}`);
		await expect(page.getByRole('status').filter({ hasText: `Likely read: ${nameOf(0)}` })).toHaveCount(1);
		// The last thing that follows a note.
		await expect(
			page
				.locator('.whole')
				.getByRole('listitem')
				.filter({ hasText: nameOf(0) })
		).toHaveCount(1);
		expect(page.url()).toBe(address);
		expect(requests.filter((url) => !url.startsWith(new URL(baseURL ?? '').origin))).toEqual([]);
		const kept = await page.evaluate(async () => ({
			local: localStorage.length,
			// SvelteKit keeps where pages were scrolled to, for the back button.
			session: Object.keys(sessionStorage).filter((key) => !key.startsWith('sveltekit:')),
			databases: (await indexedDB.databases()).length,
			state: JSON.stringify(history.state).includes('points')
		}));
		expect(kept).toEqual({ local: 0, session: [], databases: 0, state: false });
		expect(await cachedBy(page)).toEqual(copies);
		expect(await context.cookies()).toEqual([]);
		// Nothing at all: an object is logged as a preview, which can hide the points and choices in it.
		expect(logged).toEqual([]);
		expect(troubles).toEqual([]);
	});

	test('the reader looks ahead while a stroke is drawn, and one note comes of it, after the pen is lifted', async ({
		page
	}) => {
		await page.addInitScript(() => {
			const asked: string[] = [];
			Object.assign(globalThis, { asked });
			const post = Reflect.get(Worker.prototype, 'postMessage') as (this: Worker, ...sent: unknown[]) => void;
			Worker.prototype.postMessage = function (this: Worker, ...sent: unknown[]) {
				asked.push((sent[0] as { kind: string }).kind);
				post.apply(this, sent);
			};
		});
		const asked = (): Promise<string[]> => page.evaluate(() => (globalThis as unknown as { asked: string[] }).asked);
		await openPractice(page);
		const [first, ...rest] = fillOf((await targetsOn(page))[0]!);
		await page.mouse.move(first!.x, first!.y);
		await page.mouse.down();
		for (const { x, y } of rest) {
			await page.mouse.move(x, y);
			await page.waitForTimeout(60);
		}
		await expect.poll(asked).toContain('foresee');
		expect(await asked()).not.toContain('add');
		await expect(page.locator('.margin .note:visible')).toHaveCount(0);
		await page.mouse.up();
		await expect(page.locator('.margin .note:visible')).toHaveCount(1);
		expect((await asked()).filter((kind) => kind === 'add')).toHaveLength(1);
	});

	test('notes never lie over one another or over the paper', async ({ page }) => {
		await openPractice(page);
		for (const index of [0, 2, 7, 11, 14]) await fillTarget(page, index);
		const notes = page.locator('.margin .note:visible');
		await expect(notes).toHaveCount(5);
		const paper = (await page.locator('.paper').first().boundingBox())!;
		// A new note lies over its neighbours until they have made room.
		await expect(async () => {
			const boxes = await notes.evaluateAll((all) =>
				all.map((note) => note.getBoundingClientRect().toJSON() as DOMRect)
			);
			boxes.sort((a, b) => a.top - b.top);
			for (const [i, box] of boxes.entries()) {
				expect(box.left).toBeGreaterThanOrEqual(paper.x + paper.width);
				if (i > 0) expect(box.top).toBeGreaterThanOrEqual(boxes[i - 1]!.bottom);
			}
		}).toPass({ timeout: 30_000 });
	});

	test('too many marks are said at once and the focus stays where it was', async ({ page }) => {
		await openPractice(page);
		await page.getByRole('button', { name: 'Mark without drawing' }).click();
		const group = page.getByRole('group', { name: /County Treasurer/ });
		await group.getByRole('checkbox').nth(0).press('f');
		await expect(group.getByRole('checkbox').nth(0)).toBeChecked();
		await group.getByRole('checkbox').nth(1).press('f');
		await expect(page.getByRole('alert').filter({ hasText: 'County Treasurer' })).toContainText('Too many marks');
		await expect(group.getByRole('checkbox').nth(1)).toBeFocused();
		// Nothing is ever unmarked by itself.
		await expect(group.getByRole('checkbox').nth(0)).toBeChecked();
		await expect(group.getByRole('checkbox').nth(1)).toBeChecked();
	});

	test('a checked box stays checked when pressed again, and says how real ink is put right', async ({ page }) => {
		await openPractice(page);
		await page.getByRole('button', { name: 'Mark without drawing' }).click();
		const group = page.getByRole('group', { name: /County Treasurer/ });
		const box = group.getByRole('checkbox').first();
		await box.click();
		await expect(box).toBeChecked();
		await box.click();
		await expect(group.getByText('Real ink stays')).toBeVisible();
		await expect(box).toBeChecked();
		const inked = await inkOn(page);
		await group.getByRole('button', { name: 'Cross out' }).click();
		await expect.poll(() => inkOn(page)).not.toBe(inked);
	});

	test('like real paper, nothing is said until the voter asks', async ({ page }) => {
		await openPractice(page);
		await page.getByLabel('When it is read').selectOption('paper');
		await fillTarget(page, before);
		await expect(page.getByRole('button', { name: 'Undo' })).toBeEnabled();
		await page.waitForTimeout(1200);
		await expect(page.locator('.margin .note:visible')).toHaveCount(0);
		await expect(page.getByText(`Likely read: ${nameOf(0)}`)).toHaveCount(0);
		await page.getByRole('button', { name: 'Read it now' }).click();
		await expect(page.locator('.margin .note:visible').filter({ hasText: nameOf(0) })).toHaveCount(1);
		await expect(page.locator('.margin .note:visible')).toHaveCount(contests.length);
	});

	test('another style is asked for before it takes the ink, and has its own contests', async ({ page }) => {
		await openPractice(page);
		await fillTarget(page, before);
		const style = page.getByLabel('Where you live');
		await style.selectOption('cairnwold');
		await page.getByRole('dialog').getByRole('button', { name: 'Keep my marks' }).last().click();
		await expect(style).toHaveValue('ferrystead');
		await expect(page.locator('.margin .note:visible')).toHaveCount(1);
		await style.selectOption('cairnwold');
		await page.getByRole('dialog').getByRole('button', { name: 'Take a fresh sheet' }).click();
		await expect(style).toHaveValue('cairnwold');
		await expect(page.locator('svg.print').first()).toContainText('Cairnwold');
		await expect(page.locator('.margin .note:visible')).toHaveCount(0);
		await expect(page.locator('.practice[data-ready=true]')).toBeVisible();
		await fillTarget(page, 0);
		await expect(page.locator('.margin .note:visible')).toHaveCount(1);
	});

	test('a link asks before it takes the ink', async ({ page }) => {
		await openPractice(page);
		await fillTarget(page, before);
		await expect(page.locator('.margin .note:visible')).toHaveCount(1);
		await page.getByRole('link', { name: 'Español' }).first().click();
		await page.getByRole('dialog').getByRole('button', { name: 'Keep my marks' }).last().click();
		await expect(page).toHaveURL(/\/en\/practice\/$/);
		await page.getByRole('link', { name: 'Español' }).first().click();
		await page.getByRole('dialog').getByRole('button', { name: 'Take a fresh sheet' }).click();
		await expect(page).toHaveURL(/\/es\/practice\/$/);
		await expect(page.getByRole('heading', { level: 1 })).toHaveText('Marque esta boleta de práctica');
	});

	test('both languages can be printed on one sheet', async ({ page }) => {
		await openPractice(page);
		await expect(page.locator('svg.print').first()).not.toContainText('PRÁCTICA');
		await page.getByLabel('Printed in').selectOption('both');
		await expect(page.locator('svg.print').first()).toContainText('PRÁCTICA');
		await expect(page.locator('svg.print').first()).toContainText('PRACTICE');
	});

	test('the fun ballot opens by its own address', async ({ page }) => {
		await openPractice(page, 'en/practice/#fair');
		await expect(page.locator('svg.print').first()).toContainText('Pie and Park Fair');
		await fillTarget(page, 0);
		await expect(page.locator('.margin .note:visible')).toHaveCount(1);
	});

	test('each mishap falls on the sheet and is taken back by undo', async ({ page }) => {
		await openPractice(page);
		const clean = await inkOn(page);
		for (const name of ['Coffee stain', 'Smudge', 'Fold', 'Felt tip from the other side']) {
			await page.getByRole('button', { name: 'Mishap' }).click();
			await page.getByRole('dialog').getByRole('button', { name, exact: true }).click();
			await expect.poll(() => inkOn(page)).not.toBe(clean);
			await page.getByRole('button', { name: 'Undo' }).click();
			await expect.poll(() => inkOn(page)).toBe(clean);
		}
	});

	test('an eraser takes pencil, pales a pen, and never takes print', async ({ page }) => {
		await openPractice(page);
		await page.getByRole('button', { name: 'Pencil' }).click();
		await fillTarget(page, before);
		const note = page.locator('.margin .note:visible');
		await expect(note).toContainText('Likely read');
		await page.getByRole('button', { name: 'Eraser' }).click();
		const { x, y, width, height } = (await targetsOn(page))[before]!;
		for (const share of [0.2, 0.5, 0.8])
			await drawWithMouse(page, [
				{ x: x - 10, y: y + height * share },
				{ x: x + width + 10, y: y + height * share }
			]);
		await expect(note.filter({ hasText: 'Likely read' })).toHaveCount(0);
		await expect(page.locator('svg.print').first()).toContainText(nameOf(0));
	});
});

test.describe('on a phone', () => {
	test.use(phone);

	test('one finger fills an oval and the slip says what is read', async ({ page, context }) => {
		await openPractice(page);
		for (let i = 0; i < place; i += 1) await page.getByRole('button', { name: 'Next', exact: true }).tap();
		await expect(page.getByRole('status').filter({ hasText: /Contest \d+ of \d+: County Treasurer/ })).toBeVisible();
		const fingers = new Fingers(await context.newCDPSession(page));
		await fingers.draw(fillOf((await targetsOn(page))[0]!));
		await expect(page.locator('.slip').first()).toContainText(`Likely read: ${nameOf(0)}`);
		await expect(page.getByRole('button', { name: 'Undo' })).toBeEnabled();
	});

	test('two fingers scroll and draw nothing; a cancelled touch leaves nothing', async ({ page, context }) => {
		await openPractice(page);
		await page.getByRole('button', { name: 'Mark without drawing' }).tap();
		await expect(page.getByRole('checkbox').first()).toBeVisible();
		const clean = await inkOn(page);
		const paper = (await page.locator('.paper:visible').boundingBox())!;
		const fingers = new Fingers(await context.newCDPSession(page));
		const at = (dy: number, dx = 0) => ({ x: paper.x + 150 + dx, y: paper.y + 150 + dy });
		await fingers.send('touchStart', [at(0)]);
		await fingers.send('touchStart', [at(0), at(10, 80)]);
		for (const dy of [-20, -40, -60, -80]) await fingers.send('touchMove', [at(dy), at(dy + 10, 80)]);
		await fingers.send('touchEnd');
		expect(await page.locator('.table').evaluate((table) => table.scrollTop)).toBeGreaterThan(40);
		await page.waitForTimeout(DRYING_MS);
		await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
		expect(await inkOn(page)).toBe(clean);

		await page.locator('.table').evaluate((table) => {
			table.scrollTop = 0;
		});
		await fingers.send('touchStart', [at(0)]);
		for (const dx of [10, 20, 30]) await fingers.send('touchMove', [at(0, dx)]);
		await fingers.send('touchCancel');
		await page.waitForTimeout(DRYING_MS);
		await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
		expect(await inkOn(page)).toBe(clean);

		await fingers.draw([at(0), at(0, 20), at(0, 40)]);
		await expect(page.getByRole('button', { name: 'Undo' })).toBeEnabled();
		await expect.poll(() => inkOn(page)).not.toBe(clean);
	});

	for (const side of ['start', 'end'])
		test(`a finger on the strip at the ${side} of the page scrolls and draws nothing`, async ({ page, context }) => {
			await openPractice(page);
			await page.getByRole('button', { name: 'Mark without drawing' }).tap();
			await expect(page.getByRole('checkbox').first()).toBeVisible();
			const clean = await inkOn(page);
			const strip = (await page.locator(`.edge.${side}:visible`).boundingBox())!;
			const fingers = new Fingers(await context.newCDPSession(page));
			const at = (dx: number, dy: number) => ({ x: strip.x + strip.width / 2 + dx, y: strip.y + 150 + dy });
			await fingers.draw([0, -20, -40, -60, -80, -100, -120].map((dy) => at(0, dy)));
			const scrolled = () => page.locator('.table').evaluate((table) => table.scrollTop);
			await expect.poll(scrolled).toBeGreaterThan(40);

			// Just beside the strip the same finger draws: the only stroke there is to take back.
			await page.locator('.table').evaluate((table) => {
				table.scrollTop = 0;
			});
			await expect.poll(scrolled).toBe(0);
			const inwards = side === 'start' ? 30 : -30;
			await fingers.draw([0, -20, -40, -60].map((dy) => at(inwards, dy)));
			const undo = page.getByRole('button', { name: 'Undo' });
			await expect(undo).toBeEnabled();
			await expect.poll(() => inkOn(page)).not.toBe(clean);
			await undo.click();
			await expect(undo).toBeDisabled();
			await expect.poll(() => inkOn(page)).toBe(clean);
		});

	test('the column of each contest fills the width of the screen', async ({ page }) => {
		await openPractice(page);
		const { pages } = layOut(county, county.styles[0]!.id, { en: en.layout }, ['en']);
		const print = page.locator('svg.print:visible');
		for (const [i, { id }] of contests.entries()) {
			if (i > 0) await page.getByRole('button', { name: 'Next', exact: true }).tap();
			const { box } = pages.flatMap((one) => one.contests).find(({ contest }) => contest === id)!;
			await expect(async () => {
				const [x, , width] = (await print.getAttribute('viewBox'))!.split(' ').map(Number) as [number, number, number];
				const shown = (await print.boundingBox())!;
				const scale = shown.width / width;
				const left = shown.x + (box.x - x) * scale;
				const right = left + box.width * scale;
				expect([id, left >= 0, left < 30, right > 330, right <= 360]).toEqual([id, true, true, true, true]);
			}).toPass({ timeout: 30_000 });
		}
	});

	test('a short touch is a mark and no click, and the tray stays where it is', async ({ page }) => {
		await openPractice(page);
		const pens = page.getByRole('group', { name: 'Pens' });
		const before = await pens.boundingBox();
		expect(before).not.toBeNull();
		const clicks = await page.evaluateHandle(() => {
			const seen: string[] = [];
			addEventListener('click', ({ type }) => seen.push(type), true);
			return seen;
		});
		const target = (await targetsOn(page))[0]!;
		await page.touchscreen.tap(target.x + target.width / 2, target.y + target.height / 2);
		await expect(page.getByRole('button', { name: 'Undo' })).toBeEnabled();
		expect(await pens.boundingBox()).toEqual(before);
		// A click comes after its touch: this one, of a button, is the first that is seen.
		await page.getByRole('button', { name: 'Undo' }).click();
		await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
		expect(await clicks.evaluate((seen) => seen.length)).toBe(1);
	});

	test('one tap makes every target at least 44 px wide, another tap goes back', async ({ page, context }) => {
		await openPractice(page);
		const small = await targetsOn(page);
		expect(small[0]!.width).toBeLessThan(44);
		await page.getByRole('button', { name: 'Bigger' }).tap();
		await expect
			.poll(async () => Math.min(...(await targetsOn(page)).map(({ width }) => width)))
			.toBeGreaterThanOrEqual(44);
		expect(await targetsOn(page)).toHaveLength(small.length);
		const fingers = new Fingers(await context.newCDPSession(page));
		await fingers.draw(fillOf((await targetsOn(page))[0]!));
		await expect(page.locator('.slip').first()).toContainText('Likely read');
		// About one in thirty taps that the browser is sent by a program after a stroke gets no click, on a busy machine:
		// pointer and touch events come, the click does not. Without a stroke before it, none of 360 was lost.
		const smaller = page.getByRole('button', { name: 'Smaller' });
		await expect(async () => {
			if (await smaller.isVisible()) await smaller.tap();
			await expect(page.getByRole('button', { name: 'Bigger' })).toBeVisible({ timeout: 3000 });
		}).toPass({ timeout: 30_000 });
		await expect.poll(async () => (await targetsOn(page))[0]!.width).toBeCloseTo(small[0]!.width, 0);
	});

	test('the tray is in reach and never over the paper, at any scroll', async ({ page }) => {
		await openPractice(page);
		const table = page.locator('.table');
		for (const share of [0, 0.3, 1]) {
			await table.evaluate((element, s) => {
				element.scrollTop = s * element.scrollHeight;
			}, share);
			const tray = (await page.locator('.tools').boundingBox())!;
			const shown = (await table.boundingBox())!;
			expect(shown.y + shown.height).toBeLessThanOrEqual(tray.y + 0.5);
			expect(tray.y + tray.height).toBeLessThanOrEqual(740.5);
			expect(tray.y).toBeGreaterThan(740 / 2);
		}
	});
});

test.describe('by keyboard alone', () => {
	test.use(screens[0]!.use);

	/** Two filled ovals in one contest, put there from the list, and the note in the margin that says so. */
	async function markTooManyByKeys(page: Page) {
		await openPractice(page);
		const list = page.getByRole('button', { name: 'Mark without drawing' });
		await tabTo(page, list);
		await page.keyboard.press('Enter');
		const boxes = page.getByRole('group', { name: /County Treasurer/ }).getByRole('checkbox');
		for (const index of [0, 1]) {
			await tabTo(page, boxes.nth(index));
			await page.keyboard.press('f');
			await expect(boxes.nth(index)).toBeChecked();
		}
		await tabTo(page, list, 'Shift+Tab');
		await page.keyboard.press('Enter');
		const note = page.locator('.margin .note:visible');
		await expect(note).toContainText('Too many');
		return note;
	}

	test('every act: style, stage, way of reading, pen, each mark, undo, fresh sheet, read at the end', async ({
		page
	}) => {
		// Some hundred presses of Tab.
		test.setTimeout(240_000);
		await page.emulateMedia({ reducedMotion: 'reduce' });
		await openPractice(page);

		await tabTo(page, page.getByLabel('Where you live'));
		await page.keyboard.press('ArrowDown');
		await expect(page.locator('svg.print').first()).toContainText('Cairnwold');
		await expect(page.locator('.practice[data-ready=true]')).toBeVisible();
		await tabTo(page, page.getByLabel('Where your ballot is'));
		await page.keyboard.press('ArrowDown');
		await expect(page.getByLabel('Where your ballot is')).toHaveValue('polling-place');

		await tabTo(page, page.getByRole('button', { name: 'Felt tip' }));
		await page.keyboard.press('1');
		await expect(page.getByRole('button', { name: 'Pen', exact: true })).toHaveAttribute('aria-pressed', 'true');
		await page.keyboard.press('Enter');
		await expect(page.getByRole('button', { name: 'Felt tip' })).toHaveAttribute('aria-pressed', 'true');
		await page.keyboard.press('1');

		await tabTo(page, page.getByRole('button', { name: 'Mark without drawing' }));
		await page.keyboard.press('Enter');
		const group = page.getByRole('group', { name: /County Treasurer/ });
		const first = group.getByRole('checkbox').first();
		await tabTo(page, first);
		await page.keyboard.press('Space');
		await expect(first).toBeChecked();
		for (const key of 'cxoukldrsjab') {
			const inked = await inkOn(page);
			await page.keyboard.press(key);
			await expect.poll(() => inkOn(page), { message: `key ${key} puts ink on the paper` }).not.toBe(inked);
		}
		const marked = await inkOn(page);
		await page.keyboard.press('e');
		await expect.poll(() => inkOn(page)).not.toBe(marked);

		const writeIn = group.getByRole('checkbox').last();
		await tabTo(page, writeIn);
		const unwritten = await inkOn(page);
		await page.keyboard.press('w');
		await expect.poll(() => inkOn(page)).not.toBe(unwritten);

		await tabTo(page, group.getByRole('button', { name: /^Other marks/ }).last());
		await page.keyboard.press('Enter');
		const unchecked = await inkOn(page);
		await tabTo(page, group.getByRole('button', { name: 'Check mark' }));
		await page.keyboard.press('Enter');
		await expect.poll(() => inkOn(page)).not.toBe(unchecked);

		await tabTo(page, page.getByRole('button', { name: 'Undo' }), 'Shift+Tab');
		await page.keyboard.press('Enter');
		await expect.poll(() => inkOn(page)).toBe(unchecked);

		await tabTo(page, page.getByRole('button', { name: 'New sheet' }));
		await page.keyboard.press('Enter');
		await tabTo(page, page.getByRole('dialog').getByRole('button', { name: 'Take a fresh sheet' }));
		await page.keyboard.press('Enter');
		await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
		await expect(first).not.toBeChecked();

		await tabTo(page, page.getByLabel('When it is read'), 'Shift+Tab');
		await page.keyboard.press('ArrowDown');
		await tabTo(page, first);
		await page.keyboard.press('f');
		await expect(first).toBeChecked();
		await expect(group).toContainText('Not read yet');
		await tabTo(page, page.getByRole('button', { name: 'Read it now' }), 'Shift+Tab');
		await page.keyboard.press('Enter');
		await expect(group).toContainText('Likely read');
	});

	test('a mishap, a sheet printed in both languages, and the page in another language', async ({ page }) => {
		await page.emulateMedia({ reducedMotion: 'reduce' });
		await openPractice(page);
		const clean = await inkOn(page);
		const mishap = page.getByRole('button', { name: 'Mishap' });
		await tabTo(page, mishap);
		await page.keyboard.press('Enter');
		const dialog = page.getByRole('dialog');
		await expect(dialog).toBeVisible();
		await tabTo(page, dialog.getByRole('button', { name: 'Smudge', exact: true }));
		await page.keyboard.press('Enter');
		await expect(dialog).toBeHidden();
		await expect(mishap).toBeFocused();
		await expect(page.getByRole('button', { name: 'Undo' })).toBeEnabled();
		await expect.poll(() => inkOn(page)).not.toBe(clean);

		const printed = page.getByLabel('Printed in');
		await tabTo(page, printed, 'Shift+Tab');
		await page.keyboard.press('ArrowDown');
		await expect(dialog).toBeVisible();
		await page.keyboard.press('Escape');
		await expect(dialog).toBeHidden();
		await expect(printed).toBeFocused();
		await expect(printed).toHaveValue('one');
		await page.keyboard.press('ArrowDown');
		await expect(dialog).toBeVisible();
		await tabTo(page, dialog.getByRole('button', { name: 'Take a fresh sheet' }));
		await page.keyboard.press('Enter');
		await expect(printed).toHaveValue('both');
		await expect(printed).toBeFocused();
		await expect(page.locator('svg.print').first()).toContainText('PRÁCTICA');

		await tabTo(page, page.getByRole('link', { name: 'Español' }).first(), 'Shift+Tab');
		await page.keyboard.press('Enter');
		await expect(page).toHaveURL(/\/es\/practice\/$/);
		await expect(page.getByRole('heading', { level: 1 })).toHaveText('Marque esta boleta de práctica');
	});

	test('the rule behind a note, and the way to put it right step by step, each with a way back', async ({ page }) => {
		await page.emulateMedia({ reducedMotion: 'reduce' });
		const note = await markTooManyByKeys(page);
		const cite = note.getByRole('button', { name: '(what the rule says)' });
		await tabTo(page, cite);
		await page.keyboard.press('Enter');
		const rule = page.getByRole('dialog', { name: rulebook.title.en });
		await expect(rule.getByRole('heading', { name: 'What decides' })).toBeVisible();
		const others = rule.locator('details');
		await tabTo(page, others.locator('summary'));
		await page.keyboard.press('Enter');
		await expect(others.getByRole('heading').first()).toBeVisible();
		await page.keyboard.press('Escape');
		await expect(rule).toBeHidden();
		await expect(cite).toBeFocused();

		const fix = note.getByRole('button', { name: 'Show me how to fix it' });
		await tabTo(page, fix);
		await page.keyboard.press('Enter');
		const dialog = page.getByRole('dialog', { name: 'How to put it right' });
		await expect(dialog).toContainText('Step 1 of');
		const of = Number(/Step 1 of (\d+)/.exec(await dialog.innerText())?.[1]);
		expect(of).toBeGreaterThan(1);
		await tabTo(page, dialog.getByRole('button', { name: 'Next' }));
		for (let number = 2; number <= of; number += 1) {
			await page.keyboard.press('Enter');
			await expect(dialog).toContainText(`Step ${number} of ${of}`);
		}
		// The button that went on is now the one that ends it, and keeps the focus.
		const end = dialog.getByRole('button', { name: 'Try it on my ballot' });
		await expect(end).toBeFocused();
		await tabTo(page, dialog.getByRole('button', { name: 'Back' }), 'Shift+Tab');
		await page.keyboard.press('Enter');
		await expect(dialog).toContainText(`Step ${of - 1} of ${of}`);
		await tabTo(page, dialog.getByRole('button', { name: 'Next' }));
		await page.keyboard.press('Enter');
		await tabTo(page, end);
		await page.keyboard.press('Enter');
		await expect(dialog).toBeHidden();
		await expect(fix).toBeFocused();
	});

	test('the scanner’s view, the least certain marks with a way to their contest, and last time beside this time', async ({
		page
	}) => {
		await page.emulateMedia({ reducedMotion: 'reduce' });
		await markTooManyByKeys(page);
		const openByKeys = async (name: string) => {
			const button = page.getByRole('button', { name });
			await tabTo(page, button);
			await page.keyboard.press('Enter');
			const dialog = page.getByRole('dialog', { name });
			await expect(dialog).toBeVisible();
			return { button, dialog };
		};

		const scanner = await openByKeys('What the scanner sees');
		await tabTo(page, scanner.dialog.getByRole('button', { name: 'Larger' }));
		for (let step = 0; step < 5; step += 1) await page.keyboard.press('Enter');
		// As large as it gets, the button is barred and still has the keyboard.
		const larger = scanner.dialog.getByRole('button', { name: 'Larger' });
		await expect(larger).toBeDisabled();
		await expect(larger).toBeFocused();
		const view = scanner.dialog.getByRole('group', { name: 'What the scanner sees' });
		await tabTo(page, view);
		const scrolled = () => view.evaluate((element) => element.scrollLeft);
		expect(await scrolled()).toBe(0);
		await page.keyboard.press('ArrowRight');
		await expect.poll(scrolled).toBeGreaterThan(0);
		await page.keyboard.press('Escape');
		await expect(scanner.dialog).toBeHidden();
		await expect(scanner.button).toBeFocused();

		const least = await openByKeys('Least certain marks first');
		await expect(least.dialog.getByRole('listitem')).toHaveCount(2);
		await tabTo(page, least.dialog.getByRole('button', { name: /^Go to this contest/ }).last());
		await page.keyboard.press('Enter');
		await expect(least.dialog).toBeHidden();
		await expect(page.locator('.note.current:visible')).toContainText('Too many');
		await expect(page.locator('.note.current:visible')).toBeInViewport();
		await expect(page.locator('.note.current:visible').getByRole('heading', { level: 2 })).toBeFocused();

		const habit = await openByKeys('Last time and this time');
		await expect(habit.dialog.getByRole('img').first()).toBeVisible();
		await tabTo(page, habit.dialog.getByRole('button', { name: 'Close' }));
		await page.keyboard.press('Enter');
		await expect(habit.dialog).toBeHidden();
		await expect(habit.button).toBeFocused();
	});

	test.describe('on a narrow screen', () => {
		test.use({ viewport: { width: 360, height: 740 } });

		test('the next contest and back, and bigger and smaller', async ({ page }) => {
			await openPractice(page);
			const at = (number: number) => page.getByRole('status').filter({ hasText: `Contest ${number} of ` });
			const button = (name: string) => page.getByRole('button', { name, exact: true });
			await tabTo(page, button('Next'));
			await page.keyboard.press('Enter');
			await expect(at(2)).toBeVisible();
			await page.keyboard.press('Enter');
			await expect(at(3)).toBeVisible();
			await tabTo(page, button('Back'), 'Shift+Tab');
			await page.keyboard.press('Enter');
			await expect(at(2)).toBeVisible();

			const widest = async () => Math.min(...(await targetsOn(page)).map(({ width }) => width));
			const small = await widest();
			expect(small).toBeLessThan(44);
			await tabTo(page, button('Bigger'));
			await page.keyboard.press('Enter');
			await expect.poll(widest).toBeGreaterThanOrEqual(44);
			await expect(button('Smaller')).toBeFocused();
			await page.keyboard.press('Enter');
			await expect.poll(widest).toBeCloseTo(small, 0);
			await expect(button('Bigger')).toBeFocused();
		});

		test('the first contest bars the way back, and the button keeps the focus', async ({ page }) => {
			await openPractice(page);
			const button = (name: string) => page.getByRole('button', { name, exact: true });
			await tabTo(page, button('Next'));
			await page.keyboard.press('Enter');
			await tabTo(page, button('Back'), 'Shift+Tab');
			for (let press = 0; press < 3; press += 1) await page.keyboard.press('Enter');
			await expect(page.getByRole('status').filter({ hasText: 'Contest 1 of ' })).toBeVisible();
			await expect(button('Back')).toBeDisabled();
			await expect(button('Back')).toBeFocused();
		});
	});

	test('undo, pressed until nothing is left, keeps the focus and then does nothing', async ({ page }) => {
		await markTooManyByKeys(page);
		const undo = page.getByRole('button', { name: 'Undo' });
		await tabTo(page, undo, 'Shift+Tab');
		for (let press = 0; press < 4; press += 1) await page.keyboard.press('Enter');
		await expect(undo).toBeDisabled();
		await expect(undo).toBeFocused();
		await expect(page.getByRole('dialog')).toHaveCount(0);
	});

	test('the way to a contest leads into the list where that is open', async ({ page }) => {
		await page.emulateMedia({ reducedMotion: 'reduce' });
		await markTooManyByKeys(page);
		const list = page.getByRole('button', { name: 'Mark without drawing' });
		await tabTo(page, list);
		await page.keyboard.press('Enter');
		const row = page.locator('.sum').getByRole('button').first();
		await tabTo(page, row);
		const title = await page.locator('.sum .title').first().innerText();
		await page.keyboard.press('Enter');
		const contest = page.locator('fieldset.current');
		await expect(contest).toBeFocused();
		await expect(contest).toContainText(title);
		await expect(contest).toBeInViewport();
	});
});

test.describe('with no script', () => {
	test.use({ javaScriptEnabled: false });

	for (const lang of ['en', 'es'])
		test(`the page in ${lang} has every contest and choice as text, and its cautions`, async ({ page }) => {
			await page.goto(`${lang}/practice/`);
			const list = page.getByRole('region', { name: lang === 'en' ? 'Mark without drawing' : 'Marcar sin dibujar' });
			for (const contest of contests) {
				await expect(list).toContainText(contest.title[lang]!);
				for (const choice of contest.choices)
					if (choice.kind !== 'write-in') await expect(list).toContainText(choice.name[lang]!);
			}
			await expect(page.getByRole('main')).toContainText(lang === 'en' ? 'not legal advice' : 'ni asesoría legal');
			await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
		});
});

for (const { name, use } of screens)
	test.describe(`access, ${name}`, () => {
		test.use(use);

		for (const lang of ['en', 'es'])
			test(`axe finds nothing in ${lang}: untouched, marked too often, and with the list open`, async ({ page }) => {
				// axe weighs the contrast of every printed line: ten seconds each time on a slow machine.
				test.setTimeout(180_000);
				await page.emulateMedia({ reducedMotion: 'reduce' });
				await openPractice(page, `${lang}/practice/`);
				expect(await axeFindingsOn(page)).toEqual([]);
				await page.getByRole('button', { name: lang === 'en' ? 'Mark without drawing' : 'Marcar sin dibujar' }).click();
				const boxes = page.getByRole('checkbox');
				await boxes.nth(0).press('f');
				await boxes.nth(1).press('l');
				await boxes.nth(1).press('f');
				await expect(boxes.nth(1)).toBeChecked();
				expect(await axeFindingsOn(page)).toEqual([]);
				if (name === 'desk') {
					await page
						.getByRole('button', { name: lang === 'en' ? 'Mark without drawing' : 'Marcar sin dibujar' })
						.click();
					await expect(page.locator('.margin .note:visible').first()).toBeVisible();
					expect(await axeFindingsOn(page)).toEqual([]);
				}
			});
	});

test('fits a screen of 320 px in both languages, with a note and the list open', async ({ page }) => {
	await page.setViewportSize({ width: 320, height: 640 });
	for (const path of ['en/practice/', 'es/practice/']) {
		await openPractice(page, path);
		expect(await scrollsSideways(page)).toBe(false);
		await page.getByRole('button', { name: /Mark without drawing|Marcar sin dibujar/ }).click();
		await page.getByRole('checkbox').first().press('f');
		await expect(page.getByRole('checkbox').first()).toBeChecked();
		expect(await scrollsSideways(page)).toBe(false);
		const wider = await page.locator('.table').evaluate((table) => table.scrollWidth - table.clientWidth);
		expect(wider).toBeLessThanOrEqual(0);
		await page.reload();
	}
});

test('each tool keeps its name inside its tile when the text is large on a phone', async ({ page }) => {
	await page.setViewportSize({ width: 360, height: 740 });
	for (const path of ['en/practice/', 'es/practice/']) {
		await openPractice(page, path);
		await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
		const tiles = page.locator('.tools .tile:visible');
		expect(await tiles.count()).toBeGreaterThan(8);
		const cut = await tiles.evaluateAll((all) =>
			all.filter((tile) => tile.scrollWidth > tile.clientWidth).map((tile) => tile.textContent.trim())
		);
		expect([path, cut]).toEqual([path, []]);
		expect([path, await scrollsSideways(page)]).toEqual([path, false]);
	}
});
