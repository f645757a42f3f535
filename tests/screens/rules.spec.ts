import { expect, test, type Locator, type Page } from '@playwright/test';
import '../../src/core/layout/font/bundled';
import { compareRulebooks, type RulebookVerdict } from '../../src/core/rules/compareRulebooks';
import { citationIn } from '../../src/core/election/text';
import { factsOf } from '../../src/lib/rulebooks/factsOf';
import { PICTURES, toldOf } from '../../src/lib/rulebooks/pictures';
import { pictureElection, pictureSheets } from '../../src/lib/rulebooks/pictureSheets.server';
import en from '../../locales/en.json' with { type: 'json' };
import es from '../../locales/es.json' with { type: 'json' };
import { SETS } from '../core/rules/sets';
import { fillTarget, openPractice, tabTo } from '../support/ballot';
import { axeFindingsOn, heldScripts, scrollsSideways, troublesOf } from '../support/screen';

const bookOf = (id: string) => SETS.find(([one]) => one === id)![1];
const house = bookOf('demo-county');
const texts = { en: en.rulesPage, es: es.rulesPage };

/** The rulebooks with the longest words to fit: in a title, a citation or an address that stands as text. */
const longestWord = (book: (typeof SETS)[number][1]): number =>
	Math.max(
		...[...Object.values(book.title), book.versionRead, ...book.clauses.map(({ cite }) => cite)].flatMap((text) =>
			text.split(/\s/).map(({ length }) => length)
		)
	);
const widest = [...SETS].sort(([, a], [, b]) => longestWord(b) - longestWord(a)).slice(0, 5);

/** What the reader and the evaluator make of a picture, in this run: drawn, read and decided anew. */
const sheets = pictureSheets('en', en.layout);
function verdictOf(picture: string, rulebook: string): RulebookVerdict {
	const found = PICTURES.find(({ id }) => id === picture)!;
	const marks = sheets.found[picture]!;
	const layout = sheets.layouts[found.sheet];
	const { facts } = factsOf(pictureElection, layout, marks, toldOf(found, marks.marks));
	return compareRulebooks([bookOf(rulebook)], facts)[0]!;
}

const cardOf = (page: Page, rulebook: string): Locator => page.locator(`[data-rulebook="${rulebook}"]`);

async function openComparison(page: Page, path: string): Promise<void> {
	await page.goto(path);
	await expect(page.locator('[data-rulebook]').first()).toBeVisible();
}

/** One visit, until all of the app is on the device. */
async function visit(page: Page): Promise<void> {
	await page.goto('en/');
	await expect(page.locator('[data-offline-ready=true]')).toHaveText('Ready to work with no network.');
}

for (const lang of ['en', 'es'] as const)
	test.describe(`the rulebook's page in ${lang}`, () => {
		test('shows the rulebook in use, every part with its words, citation, source and date', async ({
			page,
			baseURL
		}) => {
			const troubles = troublesOf(page, baseURL ?? '');
			await page.goto(`${lang}/rules/`);
			await expect(page.getByRole('heading', { level: 1 })).toHaveText(texts[lang].title);
			await expect(page.getByRole('heading', { level: 2 }).first()).toHaveText(house.title[lang]!);
			await expect(page.getByText(house.caution[lang]!)).toBeVisible();
			const parts = page.getByRole('article');
			await expect(parts).toHaveCount(house.clauses.length);
			for (const [i, clause] of house.clauses.entries()) {
				const { plain } = clause;
				await expect(parts.nth(i)).toContainText(plain[lang]!);
				await expect(parts.nth(i)).toContainText(citationIn(clause, lang));
				await expect(parts.nth(i)).toContainText('2026');
			}
			for (const { plain } of house.outOfScope) await expect(page.getByText(plain[lang]!)).toBeVisible();
			await page.waitForLoadState('networkidle');
			expect(troubles).toEqual([]);
		});

		test('opens another rulebook from the list, with its gap and its links to the source', async ({ page }) => {
			await page.goto(`${lang}/rules/`);
			const partly = SETS.map(([, book]) => book).find(({ howMuchRead }) => howMuchRead === 'part')!;
			await page.getByLabel(texts[lang].choose).selectOption(partly.id);
			await expect(page.getByRole('heading', { level: 2 }).first()).toHaveText(partly.title[lang]!);
			await expect(page).toHaveURL(new RegExp(`#${partly.id}$`));
			await expect(page.locator('dl')).toContainText(partly.gap![lang]!);
			const source = page.getByRole('article').first().locator('a[data-address]');
			await expect(source).toHaveAttribute('href', partly.clauses[0]!.source);
			await expect(source).toHaveAttribute('target', '_blank');
			await expect(source).toContainText(texts[lang].clause.leaves);
			await page.goBack();
			await expect(page.getByRole('heading', { level: 2 }).first()).toHaveText(house.title[lang]!);
		});

		for (const width of [1280, 360])
			test(`has nothing for axe to find at ${width} px, and neither has the comparison`, async ({ page }) => {
				// With no motion: ink half drawn has no contrast to measure.
				await page.emulateMedia({ reducedMotion: 'reduce' });
				await page.setViewportSize({ width, height: 800 });
				await page.goto(`${lang}/rules/`);
				expect(await axeFindingsOn(page)).toEqual([]);
				await openComparison(page, `${lang}/rules/compare/#one-struck`);
				for (const summary of await page.locator('summary').all()) await summary.click();
				expect(await axeFindingsOn(page)).toEqual([]);
			});

		test('fits a phone with large text, and each part has room for a finger', async ({ page }) => {
			await page.setViewportSize({ width: 360, height: 740 });
			await page.goto(`${lang}/rules/`);
			const heights = await page
				.locator('article h3 a')
				.evaluateAll((all) => all.map((link) => link.getBoundingClientRect().height));
			expect(heights.length).toBeGreaterThan(10);
			expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
			await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
			expect(await scrollsSideways(page)).toBe(false);
		});

		test('fits a screen of 320 px, with every rulebook side by side as well', async ({ page }) => {
			await page.setViewportSize({ width: 320, height: 640 });
			for (const [id, book] of widest) {
				await page.goto(`${lang}/rules/#${id}`);
				await expect(page.getByRole('heading', { level: 2 }).first()).toHaveText(book.title[lang]!);
				expect([id, await scrollsSideways(page)]).toEqual([id, false]);
			}
			await openComparison(page, `${lang}/rules/compare/#two-parties/${SETS.map(([id]) => id).join('+')}`);
			await expect(page.locator('[data-rulebook]')).toHaveCount(SETS.length);
			for (const summary of await page.locator('summary').all()) await summary.click();
			expect(await scrollsSideways(page)).toBe(false);
		});
	});

test('an address leads to one part of a rulebook, and its exceptions to other parts', async ({ page }) => {
	const struck = bookOf('us-tx').clauses.find(({ exceptionTo }) => exceptionTo?.includes('TX-c'))!;
	await page.goto(`en/rules/#us-tx/${struck.id}`);
	const part = page.locator(`[id="us-tx/${struck.id}"]`);
	await expect(part).toBeFocused();
	await expect(part).toBeInViewport();
	await part.locator('.relation a[href="#us-tx/TX-c"]').first().click();
	await expect(page).toHaveURL(/#us-tx\/TX-c$/);
	await expect(page.locator('[id="us-tx/TX-c"]')).toBeFocused();
	await expect(page.locator('[id="us-tx/TX-c"]')).toBeInViewport();
});

test('another rulebook can be chosen once the script of the page runs, and not before, when nothing would come of it', async ({
	page
}) => {
	const letGo = await heldScripts(page);
	await page.goto('en/rules/', { waitUntil: 'commit' });
	const chooser = page.getByLabel(texts.en.choose);
	await expect(chooser).toBeVisible();
	await expect(chooser).toBeDisabled();
	letGo();
	await expect(chooser).toBeEnabled();
	const other = SETS.map(([, book]) => book).find(({ id }) => id !== house.id)!;
	await chooser.selectOption(other.id);
	await expect(page.getByRole('heading', { level: 2 }).first()).toHaveText(other.title['en']!);
});

test('a picture can be chosen once the page’s script runs, and not before', async ({ page }) => {
	const letGo = await heldScripts(page);
	await page.goto('en/rules/compare/', { waitUntil: 'commit' });
	const last = page.getByRole('radio').nth(3);
	await expect(last).toBeDisabled();
	letGo();
	await last.check();
	await expect(last).toBeChecked();
	await expect(page).toHaveURL(/#/);
});

test('a rulebook that is not there is said to be not there', async ({ page }) => {
	await page.goto('en/rules/#nowhere');
	await expect(page.getByText('There is no rulebook “nowhere” here.')).toBeVisible();
	await expect(page.getByRole('article')).toHaveCount(0);
});

test('a printed rulebook has every part and its addresses, and none of the page’s tools', async ({ page }) => {
	await page.goto('en/rules/#us-tx');
	await expect(page.getByRole('heading', { level: 2 }).first()).toHaveText(bookOf('us-tx').title['en']!);
	await page.emulateMedia({ media: 'print' });
	const parts = page.getByRole('article');
	await expect(parts).toHaveCount(bookOf('us-tx').clauses.length);
	for (const part of await parts.all()) await expect(part).toBeVisible();
	const printed = await parts
		.first()
		.locator('a[data-address]')
		.evaluate((link) => getComputedStyle(link, '::after').content);
	expect(printed).toContain(bookOf('us-tx').clauses[0]!.source);
	await expect(page.getByLabel('Which rulebook')).toBeHidden();
	await expect(page.locator('header')).toBeHidden();
});

test('one picture under two rulebooks that differ: outcome and citation are those of the reader and the rule', async ({
	page
}) => {
	await openComparison(page, 'en/rules/compare/#ring/us-tx+us-ak');
	const seen: string[] = [];
	for (const [picture, rulebook] of [
		['ring', 'us-tx'],
		['ring', 'us-ak'],
		['one-struck', 'us-tx'],
		['one-struck', 'us-ak'],
		['this-one', 'demo-county'],
		['signature', 'us-ne'],
		['two-parties', 'demo-county']
	] as const) {
		await openComparison(page, `en/rules/compare/#${picture}/${rulebook}`);
		const card = cardOf(page, rulebook);
		const verdict = verdictOf(picture, rulebook);
		await expect(card).toHaveAttribute('data-key', verdict.key);
		for (const { clauses } of verdict.contests)
			for (const { cite, plain } of verdict.ballot === 'void-ballot' ? verdict.ballotClauses : clauses) {
				await expect(card).toContainText(cite);
				await expect(card).toContainText(plain['en']!);
			}
		seen.push(await card.locator('.outcome').innerText());
	}
	expect(seen[0]).toBe('A vote for Ada Larkwether');
	expect(seen[1]).toBe('No vote');
	expect(seen[2]).toBe('A vote for Ada Larkwether');
	expect(seen[3]).toBe('Too many marks: no vote here');
});

test('all rulebooks together come to what the reader and each of them make of every picture in this run', async ({
	page
}) => {
	for (const { id } of PICTURES) {
		await openComparison(page, `en/rules/compare/#${id}`);
		await expect(page.getByRole('heading', { level: 2 }).first()).toHaveText(texts.en.pictures[id as 'ring'].title);
		const shown = await page
			.locator('.tally li')
			.evaluateAll((rows) => rows.map((row) => [row.getAttribute('data-key'), row.querySelector('button')!.innerText]));
		const meant = new Map<string, number>();
		for (const [book] of SETS) {
			const { key } = verdictOf(id, book);
			meant.set(key, (meant.get(key) ?? 0) + 1);
		}
		const counted = [...meant].map(([key, count]) => [key, count === 1 ? 'one rulebook' : `${count} rulebooks`]);
		expect([id, shown.sort()]).toEqual([id, counted.sort()]);
	}
});

test('the keys alone choose a picture and two rulebooks, and the answer is said aloud', async ({ page }) => {
	await openComparison(page, 'en/rules/compare/');
	await tabTo(page, page.getByRole('radio', { name: 'A ring around a name' }));
	await page.keyboard.press('ArrowRight');
	await expect(page).toHaveURL(/#check-beside$/);
	await expect(page.getByRole('radio', { name: 'A check beside the name' })).toBeFocused();
	await tabTo(page, page.getByRole('button', { name: 'None', exact: true }));
	await page.keyboard.press('Enter');
	await expect(page.locator('[data-rulebook]')).toHaveCount(0);
	await tabTo(page, page.locator('summary', { hasText: 'Pick them one by one' }));
	await page.keyboard.press('Enter');
	for (const id of ['us-ak', 'us-tx']) {
		await tabTo(page, page.locator(`input[type=checkbox][value=${id}]`));
		await page.keyboard.press('Space');
		await expect(cardOf(page, id)).toBeVisible();
		await expect(page.locator(`input[type=checkbox][value=${id}]`)).toBeFocused();
	}
	await expect(page).toHaveURL(/#check-beside\/us-ak\+us-tx$/);
	await expect(page.locator('.sum')).toHaveAttribute('role', 'status');
	await expect(page.locator('.sum')).toHaveText('These rulebooks come to 2 different answers.');
});

test('the rulebooks that come to one answer are shown in one step, and one of each answer in another', async ({
	page
}) => {
	await openComparison(page, 'en/rules/compare/#ring');
	const groups = new Map<string, string[]>();
	for (const [id] of SETS) {
		const { key } = verdictOf('ring', id);
		groups.set(key, [...(groups.get(key) ?? []), id]);
	}
	const rows = page.locator('.tally li');
	await expect(rows).toHaveCount(groups.size);
	await page.getByRole('button', { name: 'One of each answer' }).click();
	await expect(page.locator('[data-rulebook]')).toHaveCount(groups.size);
	await rows.filter({ hasText: 'A vote for Ada Larkwether' }).getByRole('button').click();
	const takers = groups.get(verdictOf('ring', 'us-tx').key)!;
	await expect(page.locator('[data-rulebook]')).toHaveCount(takers.length);
	const shown = await page
		.locator('[data-rulebook]')
		.evaluateAll((all) => all.map((one) => one.getAttribute('data-rulebook')));
	expect(shown.sort()).toEqual([...takers].sort());
});

test('the parts that do not decide are told on demand, with why', async ({ page }) => {
	await openComparison(page, 'en/rules/compare/#ring/us-ak+us-tx');
	const card = cardOf(page, 'us-tx');
	const others = card.locator('details li');
	await expect(others).toHaveCount(0);
	await card.locator('summary').click();
	const trace = verdictOf('ring', 'us-tx').contests.flatMap(({ trace }) => trace);
	const applied = new Set(trace.filter(({ result }) => result === 'applied').map(({ clause }) => clause));
	const rest = new Set(trace.map(({ clause }) => clause).filter((clause) => !applied.has(clause)));
	expect(rest.size).toBeGreaterThan(2);
	await expect(others).toHaveCount(rest.size);
	await expect(others.filter({ hasText: 'Nothing was crossed out.' })).toHaveCount(1);
});

test('a cited part leads to that part of its rulebook', async ({ page }) => {
	await openComparison(page, 'en/rules/compare/#ring/us-ak+us-tx');
	await cardOf(page, 'us-tx').locator('.cite a').first().click();
	await expect(page).toHaveURL(/\/en\/rules\/#us-tx\/TX-d2$/);
	await expect(page.locator('[id="us-tx/TX-d2"]')).toBeFocused();
});

test('marks drawn here are read and compared, and nothing of them is in the address', async ({ page, baseURL }) => {
	const troubles = troublesOf(page, baseURL ?? '');
	await page.goto('en/rules/compare/#own/us-ak+us-tx');
	const list = page.getByRole('button', { name: 'Mark without drawing' });
	await list.click();
	const box = page.getByRole('checkbox', { name: 'Ada Larkwether' });
	await box.focus();
	await page.keyboard.press('o');
	await expect(cardOf(page, 'us-tx').locator('.outcome')).toHaveText('A vote for Ada Larkwether');
	await expect(cardOf(page, 'us-ak').locator('.outcome')).toHaveText('No vote');
	// By hand as well: the first target filled.
	const target = page.locator('svg.print g[fill="none"] path').first();
	await target.scrollIntoViewIfNeeded();
	const { x, y, width, height } = (await target.boundingBox())!;
	await page.mouse.move(x + 2, y + height / 2);
	await page.mouse.down();
	for (let i = 0; i <= 16; i += 1)
		await page.mouse.move(x + (width * i) / 16, y + height * (i % 2 === 0 ? 0.2 : 0.8), { steps: 2 });
	await page.mouse.up();
	await expect(cardOf(page, 'us-ak').locator('.outcome')).toHaveText('A vote for Ada Larkwether');
	expect(new URL(page.url()).hash).toBe('#own/us-ak+us-tx');
	expect(troubles).toEqual([]);
});

test('where a mark is too light to be sure of, the card says what may decide, by what would come of it', async ({
	page
}) => {
	await page.goto('en/rules/compare/#own/us-ca+us-tx');
	await page.getByRole('button', { name: 'Mark without drawing' }).click();
	await page.getByRole('checkbox', { name: 'Ada Larkwether' }).press('l');
	const card = cardOf(page, 'us-ca');
	await expect(card.locator('h4')).toHaveText(['What may decide', 'Who looks']);
	await expect(card.locator('h5')).toHaveText([
		'It would be a vote for Ada Larkwether',
		'It would be no vote for Ada Larkwether',
		'People would decide'
	]);
	const votes = card.locator('h5:has-text("a vote for") + ul').first().locator('li');
	await expect(votes).toHaveCount(3);
	for (const [i, id] of ['CA-o2', 'CA-o3', 'CA-o5'].entries())
		await expect(votes.nth(i)).toContainText(bookOf('us-ca').clauses.find((clause) => clause.id === id)!.cite);
});

test('handwriting of one’s own is for a person to read: what is said about it decides', async ({ page }) => {
	await page.goto('en/rules/compare/#own/demo-county+us-ak');
	await page.getByRole('button', { name: 'Mark without drawing' }).click();
	await page.getByRole('checkbox', { name: 'Ada Larkwether' }).press('f');
	await expect(cardOf(page, 'demo-county').locator('.outcome')).toHaveText('A vote for Ada Larkwether');
	await page.getByRole('checkbox', { name: 'the write-in line' }).press('w');
	const says = page.getByLabel(/What does it say\?/);
	await expect(says).toHaveCount(1);
	await says.selectOption({ label: 'A name that is not printed' });
	await expect(cardOf(page, 'demo-county').locator('.outcome')).toHaveText('Too many marks: no vote here');
	await says.selectOption({ label: 'A printed name: Ada Larkwether' });
	await expect(cardOf(page, 'us-ak').locator('.outcome')).toHaveText('A vote for Ada Larkwether');
});

test('three rulebooks side by side print on two sheets at most', async ({ page }) => {
	await openComparison(page, 'en/rules/compare/#ring/demo-county+us-ak+us-tx');
	const pdf = await page.pdf({ format: 'Letter' });
	const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
	expect(pages).toBeGreaterThan(0);
	expect(pages).toBeLessThanOrEqual(2);
	await page.emulateMedia({ media: 'print' });
	await expect(cardOf(page, 'us-tx').locator('.cite').first()).toBeVisible();
	await expect(page.getByRole('radio').first()).toBeHidden();
});

test('addresses of a part and of a comparison open with no network after one visit', async ({ page, context }) => {
	await visit(page);
	await context.setOffline(true);
	await page.goto('en/rules/#us-tx/TX-d2');
	await expect(page.locator('[id="us-tx/TX-d2"]')).toBeFocused();
	await openComparison(page, 'es/rules/compare/#ring/us-ak+us-tx');
	await expect(cardOf(page, 'us-tx').locator('.outcome')).toHaveText('Un voto por Ada Larkwether');
	await expect(cardOf(page, 'us-ak').locator('.outcome')).toHaveText('Ningún voto');
	await page.reload();
	await expect(cardOf(page, 'us-ak').locator('.outcome')).toHaveText('Ningún voto');
});

test('the other language keeps the rulebook, the picture and the rulebooks compared', async ({ page }) => {
	await openComparison(page, 'en/rules/compare/#dot/us-ak+us-tx');
	await page.getByRole('radio', { name: 'Two filled, one crossed out' }).check({ force: true });
	await expect(page).toHaveURL(/#one-struck\/us-ak\+us-tx$/);
	await page.getByRole('link', { name: 'Español' }).first().click();
	await expect(page).toHaveURL(/\/es\/rules\/compare\/#one-struck\/us-ak\+us-tx$/);
	await expect(cardOf(page, 'us-tx').locator('.outcome')).toHaveText('Un voto por Ada Larkwether');
});

test('the note on a practice ballot leads to the whole rule, beside the ballot', async ({ page, context }) => {
	await page.setViewportSize({ width: 1280, height: 900 });
	await openPractice(page);
	await fillTarget(page, 0);
	await page.locator('.margin .note:visible .cite').click();
	const link = page
		.getByRole('dialog')
		.getByRole('link', { name: /See the whole rule/ })
		.first();
	const [beside] = await Promise.all([context.waitForEvent('page'), link.click()]);
	await expect(beside).toHaveURL(/\/en\/rules\/#demo-county\/demo-/);
	await expect(beside.locator('article:focus')).toHaveCount(1);
	await expect(page.locator('.margin .note:visible')).toHaveCount(1);
});

test('home leads to the rules and to the comparison', async ({ page }) => {
	await page.goto('en/');
	await page.getByRole('link', { name: 'Read the rules' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('The rules people go by');
	await page.getByRole('link', { name: 'Compare rulebooks' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Same marks, different rule');
});
