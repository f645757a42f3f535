import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { summaryOf } from './summary.mjs';

const folder = mkdtempSync(join(tmpdir(), 'summary-'));

function summaryOfReport(report: unknown): ReturnType<typeof summaryOf> {
	const file = join(folder, 'report.json');
	writeFileSync(file, JSON.stringify(report));
	return summaryOf(file);
}

const vitest = {
	numTotalTests: 3,
	numPassedTests: 2,
	numFailedTests: 0,
	numFailedTestSuites: 0,
	numPendingTests: 1,
	numTodoTests: 0,
	testResults: []
};

describe('the sum of a report', () => {
	test('has what passed, failed and was left out, and names each failure with its place and first words', () => {
		const { passed, failed, skipped, failures } = summaryOfReport({
			...vitest,
			numFailedTests: 1,
			testResults: [
				{
					name: 'tests/core/a.test.ts',
					message: '',
					assertionResults: [
						{ status: 'passed', fullName: 'a page stays', failureMessages: [] },
						{
							status: 'failed',
							fullName: 'a page turns',
							failureMessages: ['\u001b[31mexpected 1\u001b[39m\n  at line 3']
						}
					]
				}
			]
		});
		expect({ passed, failed, skipped }).toEqual({ passed: 2, failed: 1, skipped: 1 });
		expect(failures).toEqual(['tests/core/a.test.ts › a page turns: expected 1 at line 3']);
	});

	test('counts a file that did not load as a failure, with what it said', () => {
		const { failed, failures } = summaryOfReport({
			...vitest,
			numFailedTestSuites: 1,
			testResults: [{ name: 'tests/core/b.test.ts', message: 'no such module', assertionResults: [] }]
		});
		expect(failed).toBe(1);
		expect(failures).toEqual(['tests/core/b.test.ts › did not load: no such module']);
	});

	test('finds the failures of screens inside their suites, and what kept the run from starting', () => {
		const spec = (title: string, ok: boolean, said: string): unknown => ({
			title,
			ok,
			file: 'home.spec.ts',
			line: 7,
			tests: [{ results: [{ error: { message: said } }] }]
		});
		const { passed, failed, skipped, failures } = summaryOfReport({
			stats: { expected: 4, flaky: 1, unexpected: 1, skipped: 2 },
			errors: [{ message: 'the port is taken' }],
			suites: [{ specs: [spec('opens', true, '')], suites: [{ specs: [spec('prints', false, 'no page')] }] }]
		});
		expect({ passed, failed, skipped }).toEqual({ passed: 5, failed: 2, skipped: 2 });
		expect(failures).toEqual(['home.spec.ts:7 › prints: no page', 'screens › did not run: the port is taken']);
	});

	test('is one failure where there is no report, or no test in it', () => {
		expect(summaryOf(join(folder, 'none.json'))).toMatchObject({ passed: 0, failed: 1 });
		expect(summaryOfReport({ ...vitest, numTotalTests: 0, numPassedTests: 0 })).toMatchObject({ passed: 0, failed: 1 });
	});
});
