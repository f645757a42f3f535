import '../../src/core/layout/font/bundled';
import { markedSheet, readFlat } from '../support/photoCase';
import { humanStrokesIn } from '../support/humanStrokes';

/**
 * Where a threshold decides least by chance: scores of the marks that voters make, drawn and (`--data DIR`) of the open sets
 * in DIR/marks, on `--count N` flat pages (default 120). For each threshold the share of marked targets that score within
 * NEAR of it: those may be read one way now and another way the next time.
 */
const NEAR = 0.02;
const STEP = 0.05;
/** Targets that score less have no mark in them. */
const MARKED = 0.05;

const valueOf = (name: string): string | undefined => {
	const flag = process.argv.indexOf(name);
	return flag > 0 ? process.argv[flag + 1] : undefined;
};
const count = Number(valueOf('--count') ?? 120);
const folder = valueOf('--data');
const human = folder === undefined ? undefined : humanStrokesIn(folder);
process.stdout.write(
	human ? `half of the marks drawn by people, of ${human.length} classes\n` : 'no marks drawn by people (--data DIR)\n'
);

const scores = Array.from({ length: count }, (_, i) => markedSheet(i + 1, human))
	.flatMap(({ flat, page }) => readFlat(flat, page).targets.map(({ score }) => score))
	.filter((score) => score >= MARKED);
process.stdout.write(`${scores.length} marked targets on ${count} pages\n`);
for (let threshold = 2 * STEP; threshold < 1 - STEP / 2; threshold += STEP) {
	const near = scores.filter((score) => Math.abs(score - threshold) <= NEAR).length;
	process.stdout.write(
		`${threshold.toFixed(2)} ${String(near).padStart(4)} ${((100 * near) / scores.length).toFixed(1).padStart(5)} %\n`
	);
}
