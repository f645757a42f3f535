import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Stroke, Tool } from '../../src/core/ink/stroke';
import type { ChoiceLayout } from '../../src/core/layout/layout';
import { CLASS_RULES } from '../bench/humanMarkClasses';
import { inkBox, placeSample, type Sample } from '../bench/humanMarkInk';

/** Marks that people drew with a pen, of the open sets, each kind as often as any other. */
export type HumanStrokes = readonly (readonly Sample[])[];

/** The sets in DIR/marks, or undefined where they are not there. Only marks that go into a target or over it are taken. */
export function humanStrokesIn(folder: string): HumanStrokes | undefined {
	const marks = join(folder, 'marks');
	const rules = CLASS_RULES.filter(
		({ file, placement }) => file !== 'letters-latin' && (placement === 'at-target' || placement === 'in-target')
	);
	if (!rules.every(({ file }) => existsSync(join(marks, `${file}.open.json`)))) return undefined;
	return rules.flatMap(({ file, name }) => {
		const set = JSON.parse(readFileSync(join(marks, `${file}.open.json`), 'utf8')) as {
			classes: Record<string, Sample[]>;
		};
		const own = (set.classes[name] ?? []).filter(({ strokes }) => strokes !== undefined && strokes.length > 0);
		return own.length > 0 ? [own] : [];
	});
}

/** One of them brought to a target: its longer side 0.8 to 2 widths of the target, its middle near the target's. */
export function humanMark(
	all: HumanStrokes,
	{ target }: ChoiceLayout,
	tool: Tool,
	random: () => number
): readonly Stroke[] {
	const own = all[Math.floor(random() * all.length)]!;
	const sample = own[Math.floor(random() * own.length)]!;
	const from = inkBox(sample);
	const scale = (target.width * (0.8 + 1.2 * random())) / Math.max(from.width, from.height, 1e-6);
	const off = () => (target.height / 4) * (2 * random() - 1);
	const [width, height] = [from.width * scale, from.height * scale];
	const to = {
		x: target.x + target.width / 2 - width / 2 + off(),
		y: target.y + target.height / 2 - height / 2 + off(),
		width,
		height
	};
	return placeSample(sample, from, to, tool, 0.3 + 0.6 * random()).strokes;
}
