import { performance } from 'node:perf_hooks';
import '../../src/core/layout/font/bundled';
import { flattenPhoto } from '../../src/core/photo/flattenPhoto';
import { lens, leastDpi, shotOf, type Shot } from '../support/camera';
import { context, markedSheet, readFlat, shoot } from '../support/photoCase';
import { quantile } from './timing';

/**
 * Photos of our own printed sheets, made from seeds: marked, bent, tilted, dimmed, shadowed, blurred, noisy, saved as
 * JPEG of quality 50 to 95. Each is read and compared with the same sheet read flat. `--count N` photos within the
 * limits (default 20), a tenth as many outside them, and the time for a photo of 12 megapixels.
 */
const LEAST_READ = 0.99;
const LEAST_SAME = 0.99;
const LIMIT_MS = 1000;
const LEAST_DPI = 149;

const flag = process.argv.indexOf('--count');
const count = flag > 0 ? Number(process.argv[flag + 1]) : 20;
const wordy = process.argv.includes('--each');

const within = { photos: 0, read: 0, targets: 0, same: 0, flips: 0 };
const refusals = new Map<string, number>();
const spurious: number[] = [];
for (let seed = 1; seed <= count; seed += 1) {
	const sheet = markedSheet(seed);
	const shot = shotOf(seed);
	// A sheet that fills the picture when tilted may be coarser at its far edge than wished: that is outside the limits.
	if (leastDpi(lens(shot).project) < LEAST_DPI) continue;
	within.photos += 1;
	const result = flattenPhoto(shoot(sheet, shot, 50 + ((seed * 13) % 46)), context);
	if ('refused' in result) {
		refusals.set(result.refused, (refusals.get(result.refused) ?? 0) + 1);
		if (wordy)
			process.stdout.write(`${seed}: ${result.refused} ${JSON.stringify({ shot, quality: result.quality })}\n`);
		continue;
	}
	within.read += 1;
	const flat = readFlat(sheet.flat, sheet.page);
	const got = readFlat(result.page, sheet.page);
	const others: string[] = [];
	flat.targets.forEach((target, i) => {
		const read = got.targets[i];
		within.targets += 1;
		if (read?.level === target.level) within.same += 1;
		else
			others.push(`${target.level} ${target.score.toFixed(2)} -> ${read?.level ?? ''} ${read?.score.toFixed(2) ?? ''}`);
		if (isFlip(target.level, read?.level)) within.flips += 1;
	});
	spurious.push(got.marks.length - flat.marks.length);
	if (wordy)
		process.stdout.write(
			`${seed}: tilt ${shot.tilt.toFixed(0)} crease ${shot.crease.toFixed(0)} blur ${shot.blur.toFixed(1)} (${result.quality.blurPx.toFixed(2)}) slant ${result.quality.slant.toFixed(0)} dpi ${result.quality.dpi.toFixed(0)} contrast ${result.quality.contrast.toFixed(2)} light ${result.quality.light} residual ${result.quality.residualPt.toFixed(3)} ${result.quality.residual95Pt.toFixed(3)} seen ${result.quality.seen.toFixed(2)} marks ${got.marks.length} of ${flat.marks.length} ${others.join(', ')}\n`
		);
}

/** Outside the limits a photo is refused, or what it says is at most unsure: never a dark target that is none. */
const outside = { photos: 0, refused: 0, wrongDark: 0 };
const why = new Map<string, number>();
const OUTSIDE: readonly (readonly [string, Partial<Shot>])[] = [
	['60 degrees', { tilt: 60 }],
	['80 dpi', { dpi: 80 }],
	['finger over a corner', { finger: 2 }],
	['blur of 3', { blur: 3 }],
	['dark', { white: 45, dimmer: 0.6 }]
];
const rounds = Math.max(1, Math.ceil(count / 50));
for (let round = 0; round < rounds; round += 1)
	for (const [name, harder] of OUTSIDE) {
		const seed = 5000 + round;
		const sheet = markedSheet(seed);
		const result = flattenPhoto(shoot(sheet, { ...shotOf(seed), ...harder }, 80), context);
		outside.photos += 1;
		const said = `${name}: ${'refused' in result ? result.refused : 'read'}`;
		why.set(said, (why.get(said) ?? 0) + 1);
		if ('refused' in result) outside.refused += 1;
		else {
			const flat = readFlat(sheet.flat, sheet.page);
			const got = readFlat(result.page, sheet.page);
			outside.wrongDark += got.targets.filter(
				({ level }, i) => level === 'dark' && flat.targets[i]?.level === 'empty'
			).length;
		}
	}

const share = (part: number, whole: number): string => `${((100 * part) / Math.max(1, whole)).toFixed(1)} %`;
const list = (counts: ReadonlyMap<string, number>): string =>
	[...counts].map(([name, times]) => `${name} ${times}`).join(', ') || 'none';
process.stdout.write(
	`${within.photos} photos within the limits: ${within.read} read (${share(within.read, within.photos)}); refused: ${list(refusals)}\n` +
		`${within.targets} targets: ${within.same} at the level of the flat page (${share(within.same, within.targets)}), ${within.flips} flips between dark and empty\n` +
		(spurious.length > 0
			? `marks more than on the flat page: median ${quantile(spurious, 0.5)}, 90th ${quantile(spurious, 0.9)}\n`
			: '') +
		`${outside.photos} photos outside the limits: ${outside.refused} refused, ${outside.wrongDark} wrong darks; ${list(why)}\n`
);

/** From decoded grey to readings, warm. Half a page more or less in the picture changes little. */
const large = shoot(markedSheet(7), { ...shotOf(7), turn: 90, tilt: 8, dpi: 350, blur: 0.8 });
const times: number[] = [];
const processorMs: number[] = [];
for (let round = 0; round < 6; round += 1) {
	const began = performance.now();
	const before = process.cpuUsage();
	const result = flattenPhoto(large, context);
	if (!('refused' in result)) readFlat(result.page, 2);
	const { user, system } = process.cpuUsage(before);
	if (round === 0) continue;
	times.push(performance.now() - began);
	processorMs.push((user + system) / 1000);
}
const middle = quantile(times, 0.5);
process.stdout.write(
	`${((large.width * large.height) / 1e6).toFixed(1)} megapixels, from grey to readings: median ${middle.toFixed(0)} ms, quickest ${quantile(times, 0).toFixed(0)} ms, ` +
		`processor ${quantile(processorMs, 0.5).toFixed(0)} ms (limit ${LIMIT_MS})\n`
);
const right =
	within.read >= LEAST_READ * within.photos &&
	within.same >= LEAST_SAME * within.targets &&
	within.flips === 0 &&
	outside.wrongDark === 0;
process.stdout.write(
	`limits ${share(LEAST_READ, 1)} read, ${share(LEAST_SAME, 1)} the same, 0 flips, 0 wrong darks: ${right ? 'PASS' : 'FAIL'}; time: ${middle <= LIMIT_MS ? 'PASS' : 'FAIL'}\n`
);
if (!right) process.exitCode = 1;

function isFlip(a: string, b: string | undefined): boolean {
	return (a === 'dark' && b === 'empty') || (a === 'empty' && b === 'dark');
}
