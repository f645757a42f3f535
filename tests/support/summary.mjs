// Counts the tests in a report written by Vitest or Playwright (their JSON reporters).
import { existsSync, readFileSync } from 'node:fs';

/**
 * `{ passed, failed, skipped }` of the report in `file`. No report, or a report of no test at all, is one failure:
 * a run that broke before its first test must not look green.
 */
export function summaryOf(file) {
	if (!existsSync(file)) return { passed: 0, failed: 1, skipped: 0 };
	const report = JSON.parse(readFileSync(file, 'utf8'));
	const counts =
		'numTotalTests' in report
			? {
					passed: report.numPassedTests,
					// A test file that did not load holds no failed test, yet its suite failed.
					failed: report.numFailedTests || report.numFailedTestSuites,
					skipped: report.numPendingTests + report.numTodoTests
				}
			: {
					passed: report.stats.expected + report.stats.flaky,
					failed: report.stats.unexpected + report.errors.length,
					skipped: report.stats.skipped
				};
	return counts.passed + counts.failed === 0 ? { ...counts, failed: 1 } : counts;
}
