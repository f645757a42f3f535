import { defineConfig, devices } from '@playwright/test';
import { launchOptions } from './tests/support/browser.mjs';

// Under a folder, as on most hosts: a link that only works at the root of a site then fails here.
const port = process.env.PORT ?? '4173';
const site = `http://localhost:${port}/ballot/`;

export default defineConfig({
	testDir: 'tests/screens',
	outputDir: 'test-results',
	fullyParallel: true,
	workers: 2,
	forbidOnly: Boolean(process.env.CI),
	retries: 0,
	// Room for a busy machine of two cores: what must be quick is measured by the benchmarks, not here.
	timeout: 120_000,
	expect: { timeout: 30_000 },
	use: { baseURL: site, trace: 'retain-on-failure', ...devices['Desktop Chrome'], launchOptions: launchOptions() },
	webServer: {
		command: `node tests/support/serve.mjs ${port} /ballot`,
		url: site,
		reuseExistingServer: !process.env.CI,
		stdout: 'ignore'
	}
});
