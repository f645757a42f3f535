import { readFileSync } from 'node:fs';
import '../../src/core/layout/font/bundled';
import { county } from '../../src/core/election/demo';
import type { GreyImage } from '../../src/core/image';
import { placeMark } from '../../src/core/ink/placeMark';
import type { Stroke } from '../../src/core/ink/stroke';
import { layOut } from '../../src/core/layout/layOutBallot';
import { inkPage } from '../../src/core/page/inkPage';
import { printPage } from '../../src/core/page/printPage';
import { readBallot, type OpenBallot } from '../../src/core/read';
import type { Rulebook } from '../../src/core/rules/rule';
import { wordsOf } from '../../src/cli/files';
import { quantile, time } from './timing';

/**
 * The whole page, warm: from a marked grey page at 200 dpi to readings. Printed beside a baseline of
 * the same run: one plain pass that counts the dark pixels of the page.
 */
const LIMIT_MS = 60;
const ROUNDS = 40;

const style = county.styles[0]?.id ?? '';
const layout = layOut(county, style, wordsOf(county.languages), ['en']);
const rulebook = JSON.parse(
	readFileSync(new URL(`../../src/core/rules/sets/${county.rulebook}.json`, import.meta.url), 'utf8')
) as Rulebook;
const open: OpenBallot = {
	election: county,
	layout,
	rulebook,
	prints: layout.pages.map(({ page }) => printPage(layout, page))
};

const kinds = ['fill', 'check', 'cross', 'ring', 'circle-name', 'cross-out', 'light', 'write-in'] as const;
const images = new Map<number, GreyImage>();
for (const { page, choices } of layout.pages) {
	const strokes: Stroke[] = choices.flatMap((choice, index) => {
		const kind = kinds[index % kinds.length] ?? 'fill';
		if (kind === 'write-in' && !choice.writeIn) return [];
		return placeMark(kind, choice, { tool: 'ballpoint', shape: layout.shape, side: layout.side, seed: index });
	});
	const print = open.prints[page - 1];
	if (print)
		images.set(
			page,
			inkPage(
				print,
				{ page, strokes },
				choices.map(({ target }) => target)
			)
		);
}
const first = new Map([...images].slice(0, 1));
const marks = readBallot(first, open).pages[0]?.marks.length ?? 0;

const baseline = time(ROUNDS, () => darkPixels(images.get(1)));
const reading = time(ROUNDS, () => readBallot(first, open).contests.length);
const middle = quantile(reading, 0.5);
process.stdout.write(
	`read one page (${marks} marks): median ${middle.toFixed(1)} ms, 95th ${quantile(reading, 0.95).toFixed(1)} ms; ` +
		`${(middle / quantile(baseline, 0.5)).toFixed(1)} x a plain pass over its pixels (${quantile(baseline, 0.5).toFixed(1)} ms)\n` +
		`limit ${LIMIT_MS} ms: ${middle <= LIMIT_MS ? 'PASS' : 'FAIL'}\n`
);
if (middle > LIMIT_MS) process.exitCode = 1;

function darkPixels(image: GreyImage | undefined): number {
	let dark = 0;
	for (const value of image?.data ?? []) if (value < 128) dark += 1;
	return dark;
}
