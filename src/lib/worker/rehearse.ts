import type { Stroke, StrokePoint } from '$core/ink/stroke';
import type { ChoiceLayout } from '$core/layout/layout';
import type { Session } from './session';

/** Enough marks for a browser to make the reader's code fast; found by trial. */
const MARKS = 96;

/**
 * Marks a sheet that nobody sees, one mark a step, so that the reader's code is fast before the voter's first
 * mark: a browser compiles well only what has run often. Yields after each mark, to be gone on with when
 * there is nothing else to do.
 */
export function* rehearse(opened: Session): Generator<void, void> {
	const session = opened.another();
	session.read();
	yield;
	const places = session.layout.pages.flatMap(({ page, choices }) => choices.map((choice) => ({ page, choice })));
	if (places.length === 0) return;
	for (let i = 0; i < MARKS; i += 1) {
		const { page, choice } = places[(i * 7) % places.length] as (typeof places)[number];
		const points = (FORMS[i % FORMS.length] as Form)(choice);
		const stroke: Stroke = { tool: 'ballpoint', points };
		session.add(page, [stroke], []);
		session.read();
		yield;
	}
}

type Form = (choice: ChoiceLayout) => StrokePoint[];

/** To and fro in the target, a check in it, a ring around it, a line through the name. */
const FORMS: readonly Form[] = [
	({ target: { x, y, width, height } }) =>
		steps(24, (t) => [x + width * t, y + height * (0.5 + 0.35 * (Math.round(t * 24) % 2 === 0 ? 1 : -1))]),
	({ target: { x, y, width, height } }) =>
		steps(20, (t) => [x + width * (0.2 + t), y + height * (t < 0.3 ? 0.4 + 1.6 * t : 1.2 - 1.2 * t)]),
	({ target: { x, y, width, height } }) =>
		steps(40, (t) => [
			x + width / 2 + width * Math.cos(2 * Math.PI * t),
			y + height / 2 + height * Math.sin(2 * Math.PI * t)
		]),
	({ name: { x, y, width, height } }) => steps(30, (t) => [x + width * t, y + height * (0.4 + 0.2 * t)])
];

const steps = (count: number, at: (t: number) => readonly [number, number]): StrokePoint[] =>
	Array.from({ length: count + 1 }, (_, i) => {
		const [x, y] = at(i / count);
		return [x, y, i * 12];
	});
