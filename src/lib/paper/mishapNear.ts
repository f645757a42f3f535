import type { Mishap, PageInk, Stroke, StrokePoint } from '$core/ink/stroke';
import type { PageLayout } from '$core/layout/layout';

/** Radius of a mug's foot on the paper, in points: about 5 cm across. */
const MUG_PT = 70;

/**
 * A mishap at the contest the voter is at: a stain over its lower corner, a smudge through the last ink on the page
 * (or the first row), a crease at the sheet's nearest fold, felt-tip from the other side behind the rows. Several of
 * a kind on one page never fall on the same spot.
 */
export function mishapNear(kind: Mishap['kind'], page: PageLayout, contest: string, ink: PageInk): Mishap {
	const box = page.contests.find((c) => c.contest === contest)?.box ?? { x: 36, y: 36, width: 250, height: 150 };
	const rows = page.choices.filter((choice) => choice.contest === contest);
	const before = ink.mishaps?.filter((mishap) => mishap.kind === kind).length ?? 0;
	const [first] = rows;
	const top = { x: box.x, y: first?.row.y ?? box.y };
	switch (kind) {
		case 'stain':
			return {
				kind,
				x: box.x + box.width * (0.62 - 0.17 * (before % 3)),
				y: box.y + box.height * 0.7,
				radiusPt: MUG_PT,
				seed: 1 + before
			};
		case 'smudge': {
			const last = ink.strokes.findLast(({ tool }) => tool !== 'eraser')?.points.at(-1);
			const [x, y] = last ?? [top.x + 20, top.y + 8];
			return { kind, x: x - 4, y, dx: 46, dy: 7 + 3 * before };
		}
		case 'fold': {
			const middle = box.y + box.height / 2;
			const folds = [...page.foldsPt].sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
			return { kind, at: folds[before % Math.max(1, folds.length)] ?? page.heightPt / 2, along: 'x' };
		}
		case 'bleed':
			return { kind, strokes: backOf(top.x + 8, top.y + 4 + before * 18) };
	}
}

/** A filled oval and a short word in felt-tip, seen from behind. */
function backOf(x: number, y: number): Stroke[] {
	const zigzag = (left: number, width: number, height: number, turns: number): StrokePoint[] =>
		Array.from({ length: turns }, (_, i) => [left + (width * i) / (turns - 1), y + (i % 2 === 0 ? 0 : height), i * 30]);
	return [
		{ tool: 'felt', points: zigzag(x + 26, 16, 7, 12) },
		{ tool: 'felt', points: zigzag(x + 70, 46, 6, 9) }
	];
}
