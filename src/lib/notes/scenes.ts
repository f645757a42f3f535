import type { CorrectionMethod, Stage } from '$core/election/election';
import type { PlaceableMark } from '$core/ink/placeMark';

/** A mark at one of the example's rows. */
export interface SceneMark {
	readonly row: 'first' | 'second' | 'writeIn' | 'wholeRow';
	readonly kind: PlaceableMark;
}

/** One step of a walk-through: a caption, what is on the paper already, and what is drawn now. */
export interface Scene {
	/** A key of `reading.fixIt.` */
	readonly caption: string;
	readonly before: readonly SceneMark[];
	readonly now: readonly SceneMark[];
}

const first = (kind: PlaceableMark): SceneMark => ({ row: 'first', kind });
const second = (kind: PlaceableMark): SceneMark => ({ row: 'second', kind });
const written: SceneMark = { row: 'writeIn', kind: 'write-in' };
const writtenMark: SceneMark = { row: 'writeIn', kind: 'fill' };

/** The mistake, by the key of the advice, as it is drawn on the example. */
const MISTAKES: Readonly<Record<string, readonly SceneMark[]>> = {
	light: [first('light')],
	faint: [first('dot')],
	partial: [first('check')],
	join: [first('join-arrow')],
	wrongSide: [first('after-name')],
	ring: [first('circle-name')],
	underline: [first('underline-name')],
	beside: [first('beside')],
	touchesTwo: [first('beside')],
	writeInNoTarget: [written],
	writeInNoName: [writtenMark],
	dot: [second('dot'), first('fill')],
	erased: [second('light'), second('erase'), first('fill')],
	smudge: [second('partial'), first('fill')],
	stain: [second('partial'), first('fill')],
	fold: [second('light'), first('fill')],
	lightTooMany: [first('fill'), second('light')],
	outsideTooMany: [first('fill'), second('circle-name')],
	writeInTooMany: [first('fill'), written],
	overvoteWriteIn: [first('fill'), writtenMark, written],
	crossOut: [second('fill'), second('cross-out'), first('fill')],
	crossOutClean: [second('cross-out'), first('fill')],
	crossOutAlone: [second('cross-out')],
	note: [first('fill'), second('after-name')],
	overvote: [first('fill'), second('fill')],
	yesAndNo: [first('fill'), second('fill')]
};

const FILLED_IN: ReadonlySet<string> = new Set([
	'light',
	'faint',
	'partial',
	'join',
	'wrongSide',
	'ring',
	'underline',
	'beside',
	'touchesTwo',
	'writeInNoTarget'
]);

/**
 * The walk-through for one piece of advice. What only lacks ink gets it; anything else is put right in the
 * office's way: a new ballot, or a cross-out where the office takes one and the voter is not at a polling
 * place, where a new ballot is at hand. Throws a RangeError for advice that has no drawing of its own, rather than draw
 * another mistake.
 */
export function scenesFor(advice: string, method: CorrectionMethod, stage: Stage): readonly Scene[] {
	const key = advice.split('.')[0] ?? advice;
	const before = MISTAKES[key];
	if (!before) throw new RangeError(`scenesFor: expected advice on a mistake that can be drawn, got "${advice}"`);
	const now: Scene = { caption: 'now', before: [], now: before };
	if (FILLED_IN.has(key)) {
		const fill = key === 'writeInNoTarget' ? writtenMark : first('fill');
		return [now, { caption: 'fill', before, now: [fill] }, { caption: 'done', before: [...before, fill], now: [] }];
	}
	if (key === 'writeInNoName')
		return [
			now,
			{ caption: 'write', before, now: [written] },
			{ caption: 'done', before: [...before, written], now: [] }
		];
	// Nobody has said what is right here, so nothing is drawn as if it were.
	if (method === 'undecided') return [now];
	const fresh: Scene = { caption: 'newBallot', before: [], now: [first('fill')] };
	if (method === 'replacement-only' || stage === 'polling-place') return [now, fresh];
	const isStruck = before.some(({ kind }) => kind === 'cross-out');
	const wrong = before.some(({ row }) => row === 'writeIn') ? 'writeIn' : 'second';
	const rest = isStruck ? before.filter(({ row }) => row === 'first') : [{ row: wrong, kind: 'cross-out' } as const];
	const chosen = before.some((mark) => mark.row === 'first') ? [] : [first('fill')];
	const crossOut: Scene = isStruck
		? { caption: 'plain', before: before.filter(({ row }) => row !== 'first'), now: [...rest, ...chosen] }
		: { caption: 'crossOut', before, now: [...rest, ...chosen] };
	return method === 'cross-out-last-resort'
		? [now, fresh, { ...crossOut, caption: 'lastResort' }]
		: [now, crossOut, fresh];
}
