import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/**
 * What went wrong on a page from now on: errors on the console (a breach of the content security policy is one), errors
 * thrown, and requests to any other host. Call before `goto`, look at the list at the end.
 */
export function troublesOf(page: Page, site: string): string[] {
	const troubles: string[] = [];
	page.on('console', (message) => {
		if (message.type() === 'error') troubles.push(`console: ${message.text()}`);
	});
	page.on('pageerror', (error) => troubles.push(`thrown: ${error.message}`));
	page.on('request', (request) => {
		const { protocol, origin } = new URL(request.url());
		if (protocol !== 'data:' && protocol !== 'blob:' && origin !== new URL(site).origin)
			troubles.push(`request: ${request.url()}`);
	});
	return troubles;
}

/** Keeps back the scripts of pages opened from now on until the function it resolves to is called. */
export async function heldScripts(page: Page): Promise<() => void> {
	let letGo: () => void = () => undefined;
	const held = new Promise<void>((resolve) => (letGo = resolve));
	await page.route('**/*.js', async (route) => {
		await held;
		await route.continue();
	});
	return letGo;
}

/** What axe finds against WCAG 2.2 A and AA and its own best practices, one line a finding. */
export async function axeFindingsOn(page: Page): Promise<string[]> {
	const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa', 'best-practice'];
	const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
	return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`);
}

/** Whether the page is wider than the screen, so that it would have to be scrolled sideways. */
export async function scrollsSideways(page: Page): Promise<boolean> {
	return page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
}
