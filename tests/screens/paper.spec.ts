import { expect, test, type Locator, type Page } from '@playwright/test';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import '../../src/core/layout/font/bundled';
import { encodeCode } from '../../src/codes/encodeCode';
import { endOf } from '../../src/core/election/dates';
import { county, fair } from '../../src/core/election/demo';
import type { Election } from '../../src/core/election/election';
import type { GreyImage } from '../../src/core/image';
import { placeMark } from '../../src/core/ink/placeMark';
import type { Layout } from '../../src/core/layout/layout';
import { layOut } from '../../src/core/layout/layOutBallot';
import { inkPage } from '../../src/core/page/inkPage';
import { halve } from '../../src/core/photo/shrink';
import { printSheet } from '../../src/core/sheet/printSheet';
import { wordsOf } from '../../src/cli/files';
import { PRACTICE_DAY, tabTo } from '../support/ballot';
import { photograph, shotOf, type Shot } from '../support/camera';
import { finePrint, withInk } from '../support/finePrint';
import { ensurePoppler, picturesOfPdf } from '../support/poppler';
import { jpegOf, pngOf, turnedClockwise, turnedJpeg } from '../support/photoFiles';
import { axeFindingsOn, heldScripts, scrollsSideways, troublesOf } from '../support/screen';

// A photo takes a second or two to read, and many times that on a machine that others use as well.
test.describe.configure({ timeout: 300_000 });
const SLOWLY = { timeout: 120_000 };

const words = wordsOf(county.languages);
const [style] = county.styles as [(typeof county.styles)[number]];
const layout = layOut(county, style.id, words, ['en']);

/** A page on which the first choices of the first two contests are marked: one filled, one with a light mark. */
function marked(page: number, of: Layout = layout): { readonly flat: GreyImage; readonly print: GreyImage } {
	const print = printSheet(of, page, encodeCode);
	const { contests, choices } = of.pages[page - 1]!;
	const first = (contest: string) => choices.find((choice) => choice.contest === contest)!;
	const strokes = contests.slice(0, 2).flatMap(({ contest }, i) =>
		placeMark(i === 0 ? 'fill' : 'light', first(contest), {
			tool: 'ballpoint',
			shape: of.shape,
			side: of.side,
			seed: 10 * page + i
		})
	);
	const anchors = choices.map(({ target }) => target);
	return { flat: inkPage(print, { page, strokes }, anchors, undefined, { seed: page }), print };
}

/** A photo as a hand takes it at a table: a little turned, tilted and blurred. */
const BY_HAND: Shot = {
	...shotOf(3),
	turn: 4,
	tilt: 14,
	towards: 70,
	dpi: 190,
	blur: 0.7,
	curlX: 0,
	curlY: 4,
	crease: 2,
	dimmer: 0.8,
	shadow: 1,
	white: 215,
	flare: 6,
	noise: 2
};

function shot(page: number, harder: Partial<Shot> = {}): GreyImage {
	const { flat, print } = marked(page);
	return photograph(withInk(finePrint(layout, page, encodeCode), flat, print), { ...BY_HAND, ...harder });
}

/** Made once a worker process: each takes a second or more. */
const photos = new Map<string, Buffer>();
function photoOf(page: number, harder: Partial<Shot> = {}): Buffer {
	const key = JSON.stringify([page, harder]);
	const known = photos.get(key) ?? jpegOf(shot(page, harder));
	photos.set(key, known);
	return known;
}

interface GivenFile {
	readonly name: string;
	readonly mimeType: string;
	readonly buffer: Buffer;
}
const asJpeg = (buffer: Buffer): GivenFile => ({ name: 'photo.jpg', mimeType: 'image/jpeg', buffer });
const asPng = (image: GreyImage): GivenFile => ({ name: 'scan.png', mimeType: 'image/png', buffer: pngOf(image) });

async function openPaper(page: Page, lang = 'en', day = PRACTICE_DAY): Promise<void> {
	await page.clock.setFixedTime(day);
	await page.goto(`${lang}/paper/`);
	await expect(page.locator('.page[data-ready=true]')).toBeVisible();
}

const give = (page: Page, ...files: GivenFile[]): Promise<void> =>
	page.locator('input[type=file]').setInputFiles(files.map((file) => ({ ...file })));

const reading = (page: Page): Locator => page.locator('section[aria-labelledby=read-title]');
const refusal = (page: Page): Locator => page.locator('section[aria-labelledby^=refused-]');

/** Waits until nothing is being done with a photo any more. */
async function settled(page: Page): Promise<void> {
	await expect(page.locator('.ways')).toBeVisible(SLOWLY);
}

/** Gives photos and waits until something came of them. */
async function readOf(page: Page, ...files: GivenFile[]): Promise<void> {
	await give(page, ...files);
	await settled(page);
	await expect(reading(page)).toBeVisible();
}

/** What is said of the contests that were read, one line each. */
const saidOn = (page: Page, words: RegExp): Locator => reading(page).locator('.said').filter({ hasText: words });

/** All that a browser can keep of a page, but for the app's own files. */
async function keptOn(page: Page): Promise<string[]> {
	return page.evaluate(async () => {
		const kept: string[] = [...Object.entries(localStorage), ...Object.entries(sessionStorage)].map(([key, value]) =>
			`${key}=${String(value)}`.slice(0, 200)
		);
		for (const { name } of await indexedDB.databases()) kept.push(`database ${name ?? ''}`);
		for (const name of await caches.keys())
			for (const { url } of await (await caches.open(name)).keys()) kept.push(new URL(url).pathname);
		if ('getDirectory' in navigator.storage)
			for await (const name of (
				(await navigator.storage.getDirectory()) as unknown as { keys(): AsyncIterable<string> }
			).keys())
				kept.push(`file ${name}`);
		return kept;
	});
}

for (const [lang, title, likely] of [
	['en', 'How your sheet may be read', 'Likely read:'],
	['es', 'Cómo se podría leer su hoja', 'Probablemente se lee:']
] as const)
	test.describe(`${lang}/paper/`, () => {
		test('reads a photo, says how each mark may be read, and keeps and sends nothing', async ({
			page,
			context,
			baseURL
		}) => {
			const troubles = troublesOf(page, baseURL ?? '');
			await openPaper(page, lang);
			const before = await keptOn(page);
			const sent: string[] = [];
			context.on('request', (request) => {
				if (request.method() !== 'GET' || request.postData()) sent.push(request.url());
			});
			await readOf(page, asJpeg(photoOf(1)));
			await expect(page.getByRole('heading', { name: title })).toBeFocused();
			await expect(reading(page).locator('.read-page')).toHaveCount(1);
			await expect(saidOn(page, new RegExp(`^${likely}`)).first()).toBeVisible();
			const kept = (await keptOn(page)).filter((one) => !before.includes(one));
			// The service worker may still be fetching the app's own files.
			expect(kept.filter((one) => !one.startsWith('/ballot/'))).toEqual([]);
			expect(sent).toEqual([]);
			expect(await context.cookies()).toEqual([]);
			expect(await page.locator('input[type=file]').evaluate((input: HTMLInputElement) => input.files?.length)).toBe(0);
			expect(troubles).toEqual([]);
		});

		test('has nothing for axe to find: empty, refused and read', async ({ page }) => {
			for (const width of [1280, 360]) {
				await page.setViewportSize({ width, height: 800 });
				await openPaper(page, lang);
				expect(await axeFindingsOn(page)).toEqual([]);
				await give(page, { name: 'a.txt', mimeType: 'text/plain', buffer: Buffer.from('not a photo') });
				await settled(page);
				await expect(refusal(page)).toBeVisible();
				expect(await axeFindingsOn(page)).toEqual([]);
				await readOf(page, asJpeg(photoOf(1)));
				await expect(page.getByRole('heading', { name: title })).toBeVisible();
				expect(await axeFindingsOn(page)).toEqual([]);
			}
		});

		test('fits a screen of 320 px and a text twice as large', async ({ page }) => {
			for (const [width, size] of [
				[320, '112.5%'],
				[640, '225%']
			] as const) {
				await page.setViewportSize({ width, height: 640 });
				await openPaper(page, lang);
				await page.evaluate((fontSize) => (document.documentElement.style.fontSize = fontSize), size);
				expect(await scrollsSideways(page)).toBe(false);
				await readOf(page, asJpeg(photoOf(1)));
				await expect(page.getByRole('heading', { name: title })).toBeVisible();
				expect(await scrollsSideways(page)).toBe(false);
			}
		});
	});

test('another style to print can be chosen once the page’s script runs, and not before', async ({ page }) => {
	const letGo = await heldScripts(page);
	await page.goto('en/paper/', { waitUntil: 'commit' });
	const list = page.getByLabel('Where you live');
	await expect(list).toBeVisible();
	await expect(list).toBeDisabled();
	for (const choice of await page.getByRole('radio').all()) await expect(choice).toBeDisabled();
	letGo();
	await list.selectOption('1');
	await expect(list).toHaveValue('1');
	await page.getByRole('radio', { name: 'A4' }).check();
	await expect(page.getByRole('radio', { name: 'A4' })).toBeChecked();
});

test('adds the second page, asks for what is missing, and forgets all of it on request', async ({ page }) => {
	await openPaper(page);
	await readOf(page, asJpeg(photoOf(1)));
	await expect(page.getByText('One more page of this sheet is still missing.')).toBeVisible();
	await readOf(page, asJpeg(photoOf(2)));
	await expect(reading(page).locator('.read-page')).toHaveCount(2);
	await expect(page.getByText('still missing')).toHaveCount(0);
	await page.getByRole('button', { name: 'Mark it again and take another' }).first().click();
	await expect(reading(page)).toHaveCount(0);
	await expect(page.getByRole('heading', { name: 'Take a photo of your sheet' })).toBeFocused();
});

test('reads two files chosen together, and says which of them was not read', async ({ page }) => {
	await openPaper(page);
	const table = { width: 500, height: 400, data: new Uint8Array(200_000).fill(140) };
	await readOf(page, asJpeg(photoOf(2)), asPng(table));
	await expect(refusal(page)).toContainText('Photo 2 of 2: This is not our practice sheet');
	await expect(reading(page).locator('.read-page')).toHaveCount(1);
});

test('turns a photo the way the camera was held', async ({ page }) => {
	await openPaper(page);
	await readOf(page, asJpeg(turnedJpeg(jpegOf(turnedClockwise(shot(1))), 8)));
	await expect(saidOn(page, /^Likely read:/).first()).toBeVisible();
	// The page is shown as it was printed, whatever way it lay in the photo.
	await expect(reading(page).getByText('Page 1 of 2.')).toBeVisible();
});

test('reads a scan saved as PNG, and a photo saved as WebP', async ({ page }) => {
	await openPaper(page);
	const { flat } = marked(1);
	await readOf(page, asPng(flat));
	await expect(reading(page)).toBeVisible();
	await page.getByRole('button', { name: 'Mark it again and take another' }).first().click();
	const webp = await page.evaluate(async (png) => {
		const picture = await createImageBitmap(await (await fetch(png)).blob()).catch(() => undefined);
		return picture === undefined ? undefined : 'opened';
	}, '/ballot/icon-192.png');
	expect(webp).toBe('opened');
	const bytes = await page.evaluate(
		async ({ width, height, grey }) => {
			const canvas = document.createElement('canvas');
			[canvas.width, canvas.height] = [width, height];
			const context = canvas.getContext('2d')!;
			const pixels = context.createImageData(width, height);
			const raw = Uint8Array.from(atob(grey), (letter) => letter.charCodeAt(0));
			raw.forEach((value, i) => {
				pixels.data.set([value, value, value, 255], 4 * i);
			});
			context.putImageData(pixels, 0, 0);
			const blob = await new Promise<Blob>((done) => {
				canvas.toBlob(
					(made) => {
						done(made!);
					},
					'image/webp',
					0.9
				);
			});
			return [blob.type, ...new Uint8Array(await blob.arrayBuffer())] as const;
		},
		{ width: flat.width, height: flat.height, grey: Buffer.from(flat.data).toString('base64') }
	);
	const [type, ...rest] = bytes;
	expect(type).toBe('image/webp');
	await readOf(page, { name: 'photo.webp', mimeType: 'image/webp', buffer: Buffer.from(rest) });
	await expect(reading(page)).toBeVisible();
});

const of = (election: Election, id: string, languages: readonly string[]): GivenFile =>
	asPng(printSheet(layOut(election, id, words, languages), 1, encodeCode));
const sheetOf = (change: Partial<Election>): GivenFile => of({ ...county, ...change }, style.id, ['en']);
const heic = Buffer.from([0, 0, 0, 24, ...Buffer.from('ftypheic'), 0, 0, 0, 0, ...Buffer.from('mif1heic')]);

const refusals: readonly (readonly [string, () => GivenFile, RegExp, RegExp])[] = [
	['HEIC', () => asJpeg(heic), /kind of photo cannot be opened here/, /Most compatible/],
	['a PDF', () => asJpeg(Buffer.from('%PDF-1.7 and so on')), /a PDF, not a photo/, /save the scan as a JPEG/],
	['half a JPEG', () => asJpeg(photoOf(1).subarray(0, 300)), /cannot be opened/, /once more/],
	[
		'what is no sheet of ours',
		() => asPng({ width: 400, height: 500, data: new Uint8Array(200_000).fill(240) }),
		/not our practice sheet/,
		/do not read real ballots.*do not take a photo of your real ballot/is
	],
	[
		'another election',
		() => sheetOf({ id: 'spring-demo' }),
		/for another election/,
		/“spring-demo”.*Print a new sheet/s
	],
	[
		'an older layout',
		() => sheetOf({ target: { ...county.target, widthPt: county.target.widthPt + 2 } }),
		/an older sheet/,
		/page 1 of the sheet for Ferrystead and Millrace/
	],
	[
		'a finger over a corner',
		() => asJpeg(photoOf(1, { finger: 2 })),
		/corner of the sheet cannot be seen/,
		/fingers off/
	],
	[
		'a photo from too far away',
		() => asJpeg(photoOf(1, { dpi: 95 })),
		/too small in the photo|code cannot be read/,
		/closer/
	],
	['a photo from the side', () => asJpeg(photoOf(1, { tilt: 60 })), /from the side|too small|code/, /above|closer/]
];
for (const [what, file, title, advice] of refusals)
	test(`refuses ${what}, with why and what to do`, async ({ page }) => {
		await openPaper(page);
		await give(page, file());
		await settled(page);
		await expect(refusal(page)).toHaveAccessibleName(title);
		await expect(refusal(page)).toContainText(advice);
		await expect(refusal(page).getByRole('heading')).toBeFocused();
		await expect(reading(page)).toHaveCount(0);
	});

test('reads the fun ballot, and does not mix it with the county’s', async ({ page }) => {
	await openPaper(page);
	await readOf(page, of(fair, fair.styles[0]!.id, ['en']));
	await expect(reading(page)).toContainText('Pie and Park Fair');
	await readOf(page, asJpeg(photoOf(1)));
	await expect(refusal(page)).toContainText('belongs to another sheet');
	await expect(reading(page)).toContainText('Pie and Park Fair');
});

test('makes a photo of 48 megapixels smaller while it is opened', async ({ page }) => {
	await openPaper(page);
	const large = await page.evaluate(
		async ({ width, height, grey }) => {
			const canvas = new OffscreenCanvas(8000, 6000);
			const context = canvas.getContext('2d')!;
			context.fillStyle = '#665';
			context.fillRect(0, 0, 8000, 6000);
			const small = new OffscreenCanvas(width, height);
			const pixels = new ImageData(width, height);
			const raw = Uint8Array.from(atob(grey), (letter) => letter.charCodeAt(0));
			raw.forEach((value, i) => {
				pixels.data.set([value, value, value, 255], 4 * i);
			});
			small.getContext('2d')!.putImageData(pixels, 0, 0);
			context.drawImage(small, 1700, 40, 4570, 5914);
			const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.8 });
			const input = document.querySelector<HTMLInputElement>('input[type=file]')!;
			const given = new DataTransfer();
			given.items.add(new File([blob], 'large.jpg', { type: blob.type }));
			input.files = given.files;
			input.dispatchEvent(new Event('change', { bubbles: true }));
			return blob.size;
		},
		(() => {
			const { flat } = marked(1);
			return { width: flat.width, height: flat.height, grey: Buffer.from(flat.data).toString('base64') };
		})()
	);
	expect(large).toBeGreaterThan(500_000);
	await settled(page);
	await expect(saidOn(page, /^Likely read:/).first()).toBeVisible();
});

test('stops a photo in the middle, and reads the next one', async ({ page }) => {
	await openPaper(page);
	await give(page, asJpeg(photoOf(1)));
	await page.getByRole('button', { name: 'Stop' }).click();
	await expect(page.getByRole('button', { name: 'Use the camera' })).toBeFocused();
	await expect(reading(page)).toHaveCount(0);
	await readOf(page, asJpeg(photoOf(2)));
	await expect(reading(page).getByText('Page 2 of 2.')).toBeVisible();
});

test('draws on no target, and shows the least certain marks and the scanner’s view', async ({ page }) => {
	await page.setViewportSize({ width: 1280, height: 900 });
	await openPaper(page);
	await readOf(page, asJpeg(photoOf(1)));
	const overlay = reading(page).locator('.photo svg');
	await expect(overlay).toBeVisible();
	// With the same ink a second time on top of the overlay: every place inside a target is without a drawing of ours.
	const inside = await overlay.evaluate(
		(svg: SVGSVGElement, targets: readonly { x: number; y: number }[]) => {
			const group = svg.querySelector<SVGGElement>('g')!;
			const path = document.querySelector<SVGPathElement>(
				`${/#[^)"']+/.exec(group.getAttribute('clip-path') ?? '')![0].replace(/:/g, '\\:')} path`
			)!;
			const shape = document.createElementNS('http://www.w3.org/2000/svg', 'path');
			shape.setAttribute('d', path.getAttribute('d')!);
			shape.setAttribute('fill-rule', 'evenodd');
			svg.append(shape);
			const hit = targets.filter(({ x, y }) => shape.isPointInFill(new DOMPoint(x, y))).length;
			const outside = shape.isPointInFill(new DOMPoint(2, 2));
			shape.remove();
			return { hit, outside };
		},
		layout.pages[0]!.choices.flatMap(({ target: { x, y, width, height } }) =>
			[0, 0.25, 0.5, 0.75, 1].map((share) => ({ x: x + share * width, y: y + share * height }))
		)
	);
	expect(inside).toEqual({ hit: 0, outside: true });
	expect(await overlay.locator('rect.dark').count()).toBe(1);
	await page.getByRole('button', { name: 'Least certain marks first' }).click();
	await expect(page.getByRole('dialog').locator('li').first()).toBeVisible();
	await page.keyboard.press('Escape');
	await page.getByRole('button', { name: 'What the scanner sees' }).click();
	await expect(page.getByRole('dialog').locator('canvas')).toBeVisible();
});

test('what the office asks goes by the day on which a photo is read', async ({ page }) => {
	await openPaper(page, 'en', new Date(endOf(county, 'return')!));
	await readOf(page, asJpeg(photoOf(1)));
	await expect(reading(page)).toContainText('The time to vote ended on Tuesday, September 14, 8 PM');
	await expect(page.getByRole('button', { name: 'Show me how to fix it' })).toHaveCount(0);
});

test('what the office asks of a photo left open changes by itself when voting ends', async ({ page }) => {
	await openPaper(page);
	const end = endOf(county, 'return')!;
	await page.clock.install({ time: end - 60_000 });
	await readOf(page, asJpeg(photoOf(1)));
	await expect(page.getByRole('button', { name: 'Show me how to fix it' }).first()).toBeVisible();
	await expect(reading(page)).not.toContainText('The time to vote ended');
	await page.clock.fastForward(120_000);
	await expect(reading(page)).toContainText('The time to vote ended on Tuesday, September 14, 8 PM');
	await expect(page.getByRole('button', { name: 'Show me how to fix it' })).toHaveCount(0);
});

test('can be used with the keyboard alone', async ({ page }) => {
	await openPaper(page);
	await tabTo(page, page.getByRole('radio', { name: 'Letter' }));
	await page.keyboard.press('ArrowRight');
	await expect(page.getByRole('radio', { name: 'A4' })).toBeChecked();
	await expect(page.locator('.sheet.a4').first()).toBeVisible();
	const input = page.locator('input[type=file]');
	await tabTo(page, input);
	const choosing = page.waitForEvent('filechooser');
	await page.keyboard.press('Enter');
	await (await choosing).setFiles({ ...asJpeg(photoOf(1)) });
	await expect(page.getByRole('heading', { name: 'How your sheet may be read' })).toBeFocused(SLOWLY);
	await tabTo(page, page.getByRole('button', { name: 'Show me how to fix it' }).first());
	await page.keyboard.press('Enter');
	await expect(page.getByRole('dialog')).toBeVisible();
});

test('tells a screen reader what is being done', async ({ page }) => {
	await openPaper(page);
	await page.evaluate(() => {
		const status = document.querySelector('.take > [role=status]')!;
		const heard: string[] = [];
		(globalThis as unknown as { heard: string[] }).heard = heard;
		new MutationObserver(() => heard.push(status.textContent.trim())).observe(status, {
			childList: true,
			characterData: true,
			subtree: true
		});
	});
	await readOf(page, asJpeg(photoOf(1)));
	const heard = await page.evaluate(() => (globalThis as unknown as { heard: string[] }).heard);
	expect(heard).toEqual(expect.arrayContaining(['Looking for the sheet', 'Laying the page flat', 'Reading the marks']));
});

test('reads a photo with no network after one visit', async ({ page, context }) => {
	await page.goto('en/');
	await expect(page.locator('[data-offline-ready=true]')).not.toBeEmpty();
	await context.setOffline(true);
	await openPaper(page);
	await page.reload();
	await expect(page.locator('.page[data-ready=true]')).toBeVisible();
	await readOf(page, asJpeg(photoOf(1)));
	await expect(saidOn(page, /^Likely read:/).first()).toBeVisible();
	// Another sheet is laid out with no network too.
	await page.getByRole('radio', { name: 'Español' }).check();
	await expect(page.locator('.sheet svg[lang=es]').first()).toBeVisible();
});

test.describe('the camera', () => {
	test('finds the sheet, says when to press, and reads the photo', async ({ playwright, baseURL }) => {
		const folder = mkdtempSync(join(tmpdir(), 'fairhand-camera-'));
		const film = join(folder, 'sheet.mjpeg');
		// The frame of a camera held crosswise over the sheet, which fills most of it.
		const frame = framed(shot(1, { dpi: 145, turn: 93, tilt: 5, curlY: 0, crease: 0 }), 2048, 1536);
		writeFileSync(film, jpegOf(frame, 92));
		const { launchOptions } = await import('../support/browser.mjs');
		const { args, ...options } = launchOptions();
		const browser = await playwright.chromium.launch({
			...options,
			args: [
				...args,
				'--use-fake-ui-for-media-stream',
				'--use-fake-device-for-media-stream',
				`--use-file-for-fake-video-capture=${film}`
			]
		});
		try {
			const context = await browser.newContext({ baseURL: baseURL ?? '', viewport: { width: 390, height: 844 } });
			const page = await context.newPage();
			const troubles = troublesOf(page, baseURL ?? '');
			await openPaper(page);
			await page.getByRole('button', { name: 'Use the camera' }).click();
			const dialog = page.getByRole('dialog', { name: 'Camera' });
			await expect(dialog.getByRole('status')).toContainText('Take the photo now', SLOWLY);
			await expect(dialog.locator('svg.found polygon').first()).toBeVisible();
			expect(await axeFindingsOn(page)).toEqual([]);
			const tracks = await dialog
				.locator('video')
				.evaluateHandle((video: HTMLVideoElement) => (video.srcObject as MediaStream).getTracks());
			await dialog.getByRole('button', { name: 'Take the photo' }).click();
			await expect(reading(page).getByText('Page 1 of 2.')).toBeVisible(SLOWLY);
			expect(await tracks.evaluate((all) => all.map(({ readyState }) => readyState))).toEqual(['ended']);
			// Leaving the camera without a photo turns it off as well.
			await page.getByRole('button', { name: 'Use the camera' }).click();
			await expect(dialog.getByRole('status')).toContainText('Take the photo now', SLOWLY);
			const again = await dialog
				.locator('video')
				.evaluateHandle((video: HTMLVideoElement) => (video.srcObject as MediaStream).getTracks());
			await page.keyboard.press('Escape');
			await expect(dialog).toHaveCount(0);
			expect(await again.evaluate((all) => all.map(({ readyState }) => readyState))).toEqual(['ended']);
			expect(troubles).toEqual([]);
		} finally {
			await browser.close();
		}
	});

	test('says what to do where there is no camera or no permission', async ({ page }) => {
		await openPaper(page);
		for (const [error, title] of [
			['NotAllowedError', 'The camera is off for this page'],
			['NotFoundError', 'No camera was found'],
			['NotReadableError', 'The camera is in use']
		] as const) {
			await page.evaluate((name) => {
				navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('', name));
			}, error);
			await page.getByRole('button', { name: 'Use the camera' }).click();
			await expect(page.getByRole('heading', { name: title })).toBeFocused();
			await expect(page.getByRole('dialog')).toHaveCount(0);
		}
	});
});

/** A photo in the middle of a larger frame. */
function framed(photo: GreyImage, width: number, height: number): GreyImage {
	let small = photo;
	while (small.width > width || small.height > height) small = halve(small);
	const data = new Uint8Array(width * height).fill(90);
	const [left, top] = [(width - small.width) >> 1, (height - small.height) >> 1];
	for (let y = 0; y < small.height; y++)
		data.set(small.data.subarray(y * small.width, (y + 1) * small.width), (top + y) * width + left);
	return { width, height, data };
}

test.describe('on the printer', () => {
	test('only sheets come out, each on its own page of the paper chosen', async ({ page }) => {
		await openPaper(page);
		await page.emulateMedia({ media: 'print' });
		// The link past the header too: now and then it brought an empty page before the first sheet.
		const link = page.getByRole('link', { name: 'Skip to the main part', includeHidden: true });
		await expect(link).toHaveCount(1);
		const around = [page.getByRole('banner'), page.getByRole('heading', { level: 1 }), page.locator('.wishes'), link];
		for (const hidden of around) await expect(hidden).toBeHidden();
		await page.emulateMedia({ media: null });
		expect(boxesOf(await page.pdf({ preferCSSPageSize: true }))).toEqual(Array(2).fill('612x792'));
		await page.getByRole('radio', { name: 'A4' }).check();
		await expect(page.locator('.sheet.a4')).toHaveCount(2);
		expect(boxesOf(await page.pdf({ preferCSSPageSize: true }))).toEqual(Array(2).fill('595x842'));
	});

	test('a stack has each ballot style in each language, also in large print, and in black and white', async ({
		page
	}) => {
		await openPaper(page);
		await page.getByRole('radio', { name: 'A stack for an event' }).check();
		const pagesOf = (size: 'ordinary' | 'large') =>
			county.styles
				.flatMap(({ id }) => ['en', 'es'].map((tag) => layOut(county, id, words, [tag], size).pages.length))
				.reduce((sum, count) => sum + count, 0);
		await expect(page.getByText(`${pagesOf('ordinary')} pages are ready to print.`)).toBeVisible();
		await page.getByRole('radio', { name: /Large print/ }).check();
		await expect(page.getByText(`${pagesOf('large')} pages are ready to print.`)).toBeVisible();
		expect(boxesOf(await page.pdf({ preferCSSPageSize: true }))).toEqual(Array(pagesOf('large')).fill('612x792'));
		await page.getByRole('radio', { name: 'Black and white' }).check();
		await expect(page.locator('.sheet rect[fill="#ffffff"]').first()).toBeVisible();
		expect(await page.locator('.sheet').first().innerHTML()).not.toMatch(/fill="#(?!000000|ffffff)/);
	});

	for (const scale of [1, 0.91])
		test(`what is printed at ${Math.round(100 * scale)} % is read again as the same blank sheet`, async ({ page }) => {
			test.skip(!ensurePoppler(), 'poppler-utils is not installed, so a PDF cannot be made a picture here');
			await openPaper(page);
			const folder = mkdtempSync(join(tmpdir(), 'fairhand-print-'));
			const pdf = join(folder, 'sheet.pdf');
			writeFileSync(pdf, await page.pdf({ preferCSSPageSize: true, scale }));
			const [picture = ''] = picturesOfPdf(pdf, 220);
			const line = execFileSync('npx', ['tsx', 'src/cli/main.ts', 'read', picture], { encoding: 'utf8' });
			const record = JSON.parse(line) as {
				contests: { contest: string; machine: { state: string; targets: { level: string }[] } }[];
			};
			expect(record).toMatchObject({ style: style.id, pages: [1] });
			expect(record.contests.map(({ contest }) => contest).sort()).toEqual(
				layout.pages[0]!.contests.map(({ contest }) => contest).sort()
			);
			// Poppler moves thin lines to whole pixels, and their edges may pass for ink; never on a target.
			expect(new Set(record.contests.map(({ machine }) => machine.state))).toEqual(new Set(['blank']));
			const levels = record.contests.flatMap(({ machine }) => machine.targets.map(({ level }) => level));
			expect([levels.length, new Set(levels)]).toEqual([layout.pages[0]!.choices.length, new Set(['empty'])]);
			// The same picture in the browser.
			await readOf(page, { name: 'page.png', mimeType: 'image/png', buffer: readFileSync(picture) });
			await expect(reading(page).getByText('Page 1 of 2.')).toBeVisible();
			await expect(saidOn(page, /^Likely read:/)).toHaveCount(0);
			await expect(saidOn(page, /^Nothing found$/).first()).toBeVisible();
		});
});

/** Sizes of a PDF's pages in whole points. */
function boxesOf(pdf: Buffer): string[] {
	return [...pdf.toString('latin1').matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(
		([, width, height]) => `${Math.round(Number(width))}x${Math.round(Number(height))}`
	);
}
