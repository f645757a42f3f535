// Every check of the project, one after the other; a failure does not stop the rest. It ends with what failed, a line
// each, and the sum: `N passed, N failed`, where each test is one and each step without tests (types, lint, ...) is one.
// FAIRHAND_DATA names the folder with open data sets that the benchmarks use where it is there.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { summaryOf } from './summary.mjs';

const root = resolve(import.meta.dirname, '..', '..');
const reports = join(root, '.results');
const data = resolve(root, process.env.FAIRHAND_DATA ?? join('..', 'shared', 'data'));
const total = { passed: 0, failed: 0 };
const failures = [];

// A report of an earlier run must not be counted for this one.
rmSync(reports, { recursive: true, force: true });
mkdirSync(reports);

step('types', 'npm', ['run', 'check']);
step('lint', 'npm', ['run', 'lint']);
tests('unit tests', 'unit.json', (file) =>
	run('npx', ['vitest', 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${file}`])
);
if (!existsSync(data)) console.log(`\nNo data sets at ${data}: benchmarks that need them are left out.`);
// Times depend on what else the machine does: they are printed, not judged. What the reader makes of human marks does not.
console.log('\n== benchmarks');
run('npx', ['tsx', 'tests/bench/all.ts']);
if (existsSync(join(data, 'marks'))) {
	step('human marks', 'npx', ['tsx', 'tests/bench/humanMarks.ts', join(data, 'marks')]);
	step('photographed bubbles', 'npx', ['tsx', 'tests/bench/photoBubbles.ts', join(data, 'marks')]);
}
step('browser', process.execPath, ['tests/support/browser.mjs']);
// Under a folder, as on most hosts.
const built = step('build', 'npm', ['run', 'build'], { BASE_PATH: '/ballot' });
tests('screen tests', 'screens.json', (file) => {
	// An old build would be tested in its place.
	if (built) run('npx', ['playwright', 'test', '--reporter=list,json'], { PLAYWRIGHT_JSON_OUTPUT_FILE: file });
});

// A log is often cut to its end, which must say what to mend.
if (failures.length > 0) console.log(`\n== failed\n${failures.join('\n')}`);
console.log(`\n${total.passed} passed, ${total.failed} failed`);
process.exitCode = total.failed > 0 ? 1 : 0;

/** A step that is right or wrong as a whole. */
function step(name, command, args, env = {}) {
	console.log(`\n== ${name}`);
	const right = run(command, args, env);
	const failure = `${name}: ${command} ${args.join(' ')}`;
	add(name, { passed: right ? 1 : 0, failed: right ? 0 : 1, skipped: 0, failures: right ? [] : [failure] });
	return right;
}

/** A step whose report counts its tests. */
function tests(name, report, runInto) {
	console.log(`\n== ${name}`);
	const file = join(reports, report);
	runInto(file);
	add(name, summaryOf(file));
}

function add(name, { passed, failed, skipped, failures: own }) {
	total.passed += passed;
	total.failed += failed;
	failures.push(...own.map((line) => line.replaceAll(`${root}/`, '')));
	console.log(`${name}: ${passed} passed, ${failed} failed, ${skipped} skipped`);
}

function run(command, args, env = {}) {
	// npm and npx are .cmd files on Windows, which only a shell starts.
	const shell = process.platform === 'win32' && command !== process.execPath;
	return spawnSync(command, args, { cwd: root, stdio: 'inherit', shell, env: { ...process.env, ...env } }).status === 0;
}
