// Prints one plain line per runner: "unit: 4 passed, 0 failed, 0 skipped"
import { readFileSync } from 'node:fs';
const read = (f) => JSON.parse(readFileSync(f, 'utf8'));
let bad = 0;
const line = (name, p, f, s) => {
	console.log(`${name}: ${p} passed, ${f} failed, ${s} skipped`);
	if (f || p + f === 0) bad = 1;
};
for (const arg of process.argv.slice(2)) {
	const r = read(arg);
	if ('numTotalTests' in r) line('unit', r.numPassedTests, r.numFailedTests, r.numPendingTests + r.numTodoTests);
	else line('e2e', r.stats.expected + r.stats.flaky, r.stats.unexpected, r.stats.skipped);
}
process.exit(bad);
