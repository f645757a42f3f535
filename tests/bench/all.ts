import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Runs the quick benchmarks that need no build and no browser, one after the other; photos and batches take many minutes
 * and are run by themselves. `--data DIR` names the folder with the open sets of human pen marks
 * (DIR/marks); without it those are left out, and that is said.
 */
const flag = process.argv.indexOf('--data');
const data = flag > 0 ? process.argv[flag + 1] : undefined;

const runs: readonly (readonly [script: string, ...args: string[]])[] = [
	['readPage.ts'],
	['answers.ts'],
	['rulebooks.ts'],
	...(data && existsSync(join(data, 'marks')) ? ([['humanMarks.ts', join(data, 'marks')]] as const) : [])
];
if (runs.every(([script]) => script !== 'humanMarks.ts'))
	process.stdout.write('human pen marks: no folder with them (--data DIR), left out\n');

const failed = runs.filter(([script, ...args]) => {
	process.stdout.write(`\n== ${script}\n`);
	const { status } = spawnSync(process.execPath, ['--import', 'tsx', join(import.meta.dirname, script), ...args], {
		stdio: 'inherit'
	});
	return status !== 0;
});
process.stdout.write(`\nbenchmarks: ${runs.length - failed.length} passed, ${failed.length} failed\n`);
process.exitCode = failed.length > 0 ? 1 : 0;
