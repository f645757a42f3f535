import type { Thresholds } from '../election/election';
import type { Mark, PageMarks, TargetReading } from '../marks/mark';

/** A target, with the marks in it, or a mark on its own. */
export interface Uncertain {
	/** 0 (could go either way) to 1. */
	readonly certainty: number;
	readonly page: number;
	readonly target?: TargetReading;
	readonly marks: readonly Mark[];
}

/**
 * Everything that was marked, from the least certain to the most, as a review board's queue would have it.
 * A target is as certain as its score is far from the two thresholds, and no more certain than the kind of
 * a mark in it that does not fill it. Targets with neither ink nor marks are left out.
 */
export function leastCertain(pages: readonly PageMarks[], thresholds: Thresholds): readonly Uncertain[] {
	const found = pages.flatMap(({ page, targets, marks }) => {
		const inside = (target: TargetReading): readonly Mark[] =>
			marks.filter((mark) => isInTarget(mark) && isAt(mark, target));
		const inked = targets
			.map((target) => ({ target, marks: inside(target) }))
			.filter(({ target, marks }) => target.fill > 0 || marks.length > 0)
			.map(({ target, marks }): Uncertain => {
				const kinds = marks.filter(({ kind }) => kind !== 'fill').map(({ confidence }) => confidence);
				return { page, target, marks, certainty: Math.min(certaintyOf(target, thresholds), ...kinds) };
			});
		const taken = new Set(inked.flatMap((one) => one.marks));
		const alone = marks
			.filter((mark) => !taken.has(mark))
			.map((mark): Uncertain => ({ page, marks: [mark], certainty: mark.confidence }));
		return [...inked, ...alone];
	});
	return found.sort((a, b) => a.certainty - b.certainty || a.page - b.page);
}

const isInTarget = ({ place }: Mark): boolean => place === 'in-target' || place === 'touching-target';

const isAt = (mark: Mark, target: TargetReading): boolean =>
	mark.contest === target.contest && mark.choice === target.choice && mark.rank === target.rank;

function certaintyOf({ score, level }: TargetReading, { dark, empty }: Thresholds): number {
	if (level === 'unsure') return 0;
	return level === 'dark' ? share(score - dark, 1 - dark) : share(empty - score, empty);
}

const share = (part: number, whole: number): number => (whole > 0 ? Math.min(1, Math.max(0, part / whole)) : 1);
