import { expect, type CDPSession, type Locator, type Page } from '@playwright/test';
import { ballotOf } from '../../src/core/election/ballot';
import type { Contest } from '../../src/core/election/election';
import { county } from '../../src/core/election/demo';

/** A place in the window, in CSS pixels. */
export interface Place {
	readonly x: number;
	readonly y: number;
}

/** The contests of the ballot that the practice screen opens with. */
export const contestsOf = (style = county.styles[0]!.id): readonly Contest[] => ballotOf(county, style).contests;

/** A day on which every date of the demo county that a voter can miss lies ahead. */
export const PRACTICE_DAY = new Date('2027-08-30T15:00:00Z');

/** Opens the practice screen on a day and waits until it takes ink and reads it. */
export async function openPractice(page: Page, path = 'en/practice/', day = PRACTICE_DAY): Promise<void> {
	await page.clock.setFixedTime(day);
	await openPracticeNow(page, path);
}

/** The same at whatever time the page has. */
export async function openPracticeNow(page: Page, path = 'en/practice/'): Promise<void> {
	await page.goto(path);
	// The reader is fetched when a hand comes near, once the script runs.
	await expect(page.locator('.practice[data-mounted=true]')).toBeVisible();
	await page.locator('.tools').hover();
	await expect(page.locator('.practice[data-ready=true]')).toBeVisible();
}

/** Boxes of printed targets on the sheet now shown, in the order they are drawn, in CSS pixels of the window. */
export async function targetsOn(page: Page): Promise<{ x: number; y: number; width: number; height: number }[]> {
	return page.locator('svg.print:visible').evaluateAll((prints) =>
		prints.flatMap((print) => {
			const shown = print.getBoundingClientRect();
			return [...print.querySelectorAll('g[fill="none"] path')]
				.map((path) => {
					// The box of a path leaves its line out; a target's outer box holds it.
					const { x, y, width, height } = path.getBoundingClientRect();
					const line =
						(Number(path.getAttribute('stroke-width')) * shown.width) / (print as SVGSVGElement).viewBox.baseVal.width;
					return new DOMRect(x - line / 2, y - line / 2, width + line, height + line);
				})
				.filter(
					(box) =>
						box.top >= shown.top && box.bottom <= shown.bottom && box.left >= shown.left && box.left < shown.right
				)
				.map(({ x, y, width, height }) => ({ x, y, width, height }));
		})
	);
}

/** How a hand fills a target: to and fro, from left to right. */
export function fillOf({ x, y, width, height }: { x: number; y: number; width: number; height: number }): Place[] {
	const turns = 16;
	return Array.from({ length: turns + 1 }, (_, i) => ({
		x: x + width * (0.12 + (0.76 * i) / turns),
		y: y + height * (i % 2 === 0 ? 0.2 : 0.8)
	}));
}

/** Scrolls to a target by its number on the sheets shown and fills it with the mouse. */
export async function fillTarget(page: Page, index: number): Promise<void> {
	await page.locator('svg.print:visible g[fill="none"] path').nth(index).scrollIntoViewIfNeeded();
	const target = (await targetsOn(page))[index];
	if (!target) throw new Error(`fillTarget: expected a target with number ${index} on the sheets shown, found none`);
	await drawWithMouse(page, fillOf(target));
}

export async function drawWithMouse(page: Page, [first, ...rest]: readonly Place[]): Promise<void> {
	await page.mouse.move(first!.x, first!.y);
	await page.mouse.down();
	for (const { x, y } of rest) await page.mouse.move(x, y, { steps: 2 });
	await page.mouse.up();
}

/** One or more fingers on the glass, sent as the browser gets them from the system. */
export class Fingers {
	readonly #session: CDPSession;

	constructor(session: CDPSession) {
		this.#session = session;
	}

	async send(
		type: 'touchStart' | 'touchMove' | 'touchEnd' | 'touchCancel',
		points: readonly Place[] = []
	): Promise<void> {
		await this.#session.send('Input.dispatchTouchEvent', {
			type,
			touchPoints: points.map(({ x, y }, id) => ({ x, y, id }))
		});
	}

	async draw([first, ...rest]: readonly Place[]): Promise<void> {
		await this.send('touchStart', [first!]);
		for (const place of rest) await this.send('touchMove', [place]);
		await this.send('touchEnd');
	}
}

/** What is painted on the visible ink layers, to compare with itself later. */
export async function inkOn(page: Page): Promise<string> {
	return page
		.locator('.ink.dry canvas:visible')
		.evaluateAll((tiles) =>
			tiles.map((tile) => `${tile.style.left} ${tile.style.top} ${(tile as HTMLCanvasElement).toDataURL()}`).join()
		);
}

/** Goes on with the Tab key (or back) until `to` has the focus, as somebody without a mouse must. */
export async function tabTo(page: Page, to: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
	for (let presses = 0; presses < 250; presses += 1) {
		if (await to.evaluate((element) => element === document.activeElement)) return;
		await page.keyboard.press(key);
	}
	throw new Error(`tabTo: expected the focus on ${String(to)} within 250 presses of ${key}, it never came there`);
}
