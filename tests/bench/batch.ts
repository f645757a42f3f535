import jpeg from 'jpeg-js';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { readFiles } from '../../src/cli/batch/readFiles';
import { FileReader } from '../../src/cli/fileReader';
import { markedSheet } from '../support/photoCase';

/**
 * A batch of scanned sheets, read as `fairhand read` does: `npx tsx tests/bench/batch.ts [--count 1000]`. What the
 * process holds in its first tenth after warming up is laid beside its last tenth; the peak of each, because what a
 * photo took is only given back now and then.
 */
const MOST_GROWTH = 0.2;
const SCANS = 4;

const flag = process.argv.indexOf('--count');
const count = flag > 0 ? Number(process.argv[flag + 1]) : 100;
if (!Number.isInteger(count) || count < 30)
	throw new RangeError(`batch: expected --count from 30, got ${String(count)}`);

const folder = mkdtempSync(join(tmpdir(), 'fairhand-batch-'));
const scans = Array.from({ length: SCANS }, (_, seed) => {
	const { width, height, data } = markedSheet(seed).flat;
	const colours = Buffer.alloc(4 * data.length, 255);
	data.forEach((grey, i) => colours.fill(grey, 4 * i, 4 * i + 3));
	const file = join(folder, `scan${seed}.jpg`);
	writeFileSync(file, jpeg.encode({ width, height, data: colours }, 90).data);
	return file;
});
// A damaged file among them must not hold anything either.
const damaged = join(folder, 'damaged.jpg');
writeFileSync(damaged, Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]));
const files = Array.from({ length: count }, (_, i) => (i % 10 === 9 ? damaged : (scans[i % SCANS] ?? damaged)));

const reader = new FileReader({
	election: undefined,
	style: undefined,
	languages: undefined,
	printSize: 'ordinary',
	rulebook: undefined,
	format: 'codes'
});
const workers = Math.min(availableParallelism(), 4);
const tenth = Math.floor(count / 10);
const peak = { early: { rss: 0, heap: 0 }, late: { rss: 0, heap: 0 } };
const startMs = performance.now();
let read = 0;
let refused = 0;
for await (const line of readFiles(files, reader, workers)) {
	read += 1;
	if (line.refused !== undefined) refused += 1;
	const { rss, heapUsed } = process.memoryUsage();
	const span = read > tenth && read <= 2 * tenth ? peak.early : read > count - tenth ? peak.late : undefined;
	if (!span) continue;
	span.rss = Math.max(span.rss, rss);
	span.heap = Math.max(span.heap, heapUsed);
}
rmSync(folder, { recursive: true });

const seconds = (performance.now() - startMs) / 1000;
const growth = peak.late.rss / peak.early.rss - 1;
const megabytes = (bytes: number): string => `${(bytes / 1024 / 1024).toFixed(0)} MB`;
process.stdout.write(
	`batch of ${count} sheets, ${refused} of them damaged, ${workers} workers: ${(count / seconds).toFixed(2)} a second\n` +
		`peak from 10 to 20 %: ${megabytes(peak.early.rss)} held, ${megabytes(peak.early.heap)} of it this thread's heap\n` +
		`peak from 90 to 100 %: ${megabytes(peak.late.rss)} held, ${megabytes(peak.late.heap)} of it this thread's heap\n` +
		`growth ${(100 * growth).toFixed(1)} %, limit ${100 * MOST_GROWTH} %: ${growth <= MOST_GROWTH ? 'PASS' : 'FAIL'}\n`
);
if (growth > MOST_GROWTH || refused !== files.filter((file) => file === damaged).length) process.exitCode = 1;
