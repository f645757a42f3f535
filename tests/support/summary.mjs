// Counts the tests in a report written by Vitest or Playwright (their JSON reporters), and names those that failed.
import { existsSync, readFileSync } from 'node:fs';

/**
 * `{ passed, failed, skipped, failures }` of the report in `file`; a failure is a line: which test, and what it said.
 * No report, or a report of no test at all, is one failure: a run that broke before its first test must not look green.
 *
 * @param {string} file
 * @returns {{ passed: number; failed: number; skipped: number; failures: string[] }}
 */
export function summaryOf(file) {
	if (!existsSync(file)) return { passed: 0, failed: 1, skipped: 0, failures: [`no report at ${file}`] };
	const report = JSON.parse(readFileSync(file, 'utf8'));
	const summary = 'numTotalTests' in report ? ofVitest(report) : ofPlaywright(report);
	return summary.passed + summary.failed === 0
		? { ...summary, failed: 1, failures: [...summary.failures, `no test in ${file}`] }
		: summary;
}

function ofVitest(report) {
	const failures = report.testResults.flatMap(({ name, message, assertionResults }) => {
		const tests = assertionResults
			.filter(({ status }) => status === 'failed')
			.map(({ fullName, failureMessages }) => lineOf(name, fullName, failureMessages.join(' ')));
		// A test file that did not load holds no test, and says why itself.
		return tests.length > 0 || !message ? tests : [lineOf(name, 'did not load', message)];
	});
	return {
		passed: report.numPassedTests,
		// A test file that did not load holds no failed test, yet its suite failed.
		failed: report.numFailedTests || report.numFailedTestSuites,
		skipped: report.numPendingTests + report.numTodoTests,
		failures
	};
}

function ofPlaywright({ stats, errors, suites = [] }) {
	return {
		passed: stats.expected + stats.flaky,
		failed: stats.unexpected + errors.length,
		skipped: stats.skipped,
		failures: [...suites.flatMap(failedIn), ...errors.map(({ message }) => lineOf('screens', 'did not run', message))]
	};
}

/** The failures of a suite and of those inside it. */
function failedIn({ specs = [], suites = [] }) {
	const own = specs
		.filter(({ ok }) => !ok)
		.map(({ file, line, title, tests }) => {
			const said = tests.flatMap(({ results }) => results.map(({ error }) => error?.message ?? ''));
			return lineOf(`${file}:${line}`, title, said.filter(Boolean).at(-1) ?? '');
		});
	return [...own, ...suites.flatMap(failedIn)];
}

/** One line without the terminal's colours: file, test, and the beginning of its message. */
function lineOf(file, test, message) {
	// eslint-disable-next-line no-control-regex -- the escape character begins a colour
	const plain = message.replace(/\x1b\[[0-9;]*m/g, '').replace(/\s+/g, ' ');
	return `${file} › ${test}: ${plain.trim().slice(0, 600)}`;
}
