import '../../src/core/layout/font/bundled';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import en from '../../locales/en.json' with { type: 'json' };
import { county } from '../../src/core/election/demo';
import { grow, overlaps, sharedArea, type Box } from '../../src/core/geometry';
import { PT_PER_MM, PX_PER_PT, type GreyImage } from '../../src/core/image';
import type { Stroke } from '../../src/core/ink/stroke';
import type { ChoiceLayout } from '../../src/core/layout/layout';
import { layOut } from '../../src/core/layout/layOutBallot';
import { findMarks } from '../../src/core/marks/findMarks';
import type { Mark } from '../../src/core/marks/mark';
import { inkPage } from '../../src/core/page/inkPage';
import { printPage } from '../../src/core/page/printPage';
import { randomFrom } from '../../src/core/random';
import { CLASS_RULES, type ClassRule, type Placement } from './humanMarkClasses';
import { inkBox, placeSample, stampInPlace, type PlacedInk, type Sample } from './humanMarkInk';

/**
 * Human pen marks from open datasets, placed at targets of the demo ballot and read as any page is.
 * `npx tsx tests/bench/humanMarks.ts FOLDER`; FOLDER or MARKS_DATA holds the sets. Placement of each class:
 * see `Placement`. Each sample is placed PLACED times, with the seed of the run (SEED) deciding where.
 */
const folder = process.argv[2] ?? process.env['MARKS_DATA'] ?? '../shared/data/marks';
const PLACED = Number(process.env['PLACED'] ?? 3);
const SEED = Number(process.env['SEED'] ?? 1);
const VERBOSE = process.env['VERBOSE'];

const LIMITS = { right: 0.95, rightInClass: 0.9, classFrom: 20, surelyWrong: 0.01 };

if (!existsSync(join(folder, 'paper-symbols.open.json'))) {
	process.stdout.write(`no human marks in ${folder}: nothing measured\n`);
	process.exit(0);
}

interface Outcome {
	readonly rule: ClassRule;
	/** What is drawn again when the interval is estimated: the writer, or the sample where there is none. */
	readonly source: string;
	readonly kind: string;
	readonly confidence: number;
	readonly right: boolean;
}

const layout = layOut(county, county.styles[0]?.id ?? '', { en: en.layout }, ['en']);
const prints = layout.pages.map(({ page }) => printPage(layout, page));
const places = layout.pages.flatMap(({ page, choices }) => choices.map((choice) => ({ page, choice })));
const named = places.filter(({ choice }) => !choice.writeIn);
const writeIns = places.filter(({ choice }) => choice.writeIn);
const random = randomFrom(SEED);
const within = (from: number, to: number) => from + (to - from) * random();
const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;

function samplesOf({ file, name }: ClassRule): readonly Sample[] {
	const set = JSON.parse(readFileSync(join(folder, `${file}.open.json`), 'utf8')) as {
		classes: Record<string, Sample[]>;
	};
	return name === 'latin_*' ? Object.values(set.classes).flat() : (set.classes[name] ?? []);
}

const middle = ({ x, y, width, height }: Box) => ({ x: x + width / 2, y: y + height / 2 });
const centred = (x: number, y: number, width: number, height: number): Box => ({
	x: x - width / 2,
	y: y - height / 2,
	width,
	height
});

/** The box on which a sample is brought, in points. Its own proportions are kept unless the placement fits it. */
function boxFor(placement: Placement, own: Box, { target, name }: ChoiceLayout): Box {
	const t = middle(target);
	const n = middle(name);
	const longer = Math.max(own.width, own.height, 1e-6);
	switch (placement) {
		case 'at-target': {
			const scale = (target.width * within(0.8, 2.5)) / longer;
			const off = target.height / 4;
			return centred(t.x + within(-off, off), t.y + within(-off, off), own.width * scale, own.height * scale);
		}
		case 'in-target':
		case 'outlined':
			return centred(t.x, t.y, (target.width - 2) * within(0.85, 1.1), (target.height - 2) * within(0.85, 1.1));
		case 'small': {
			const scale = (PT_PER_MM * within(0.5, 1.3)) / longer;
			const x = random() < 0.5 ? t.x + within(-5, 5) : target.x - within(3, 8);
			return centred(x, t.y + within(-2, 2), own.width * scale, own.height * scale);
		}
		case 'around':
			return random() < 0.6
				? centred(t.x, t.y, target.width * within(1.25, 1.9), target.height * within(1.5, 2.4))
				: centred(n.x, n.y, name.width * within(1.05, 1.25), name.height * within(1.1, 1.6));
		case 'under-name':
			return centred(n.x, name.y + name.height + within(0, 2), name.width * within(0.8, 1.1), within(0, 1.5));
		case 'through-name':
			return centred(n.x, lastLine(name), name.width * within(0.8, 1.1), within(0, 1.5));
		case 'over-name':
			return centred(n.x, n.y, name.width * within(0.5, 1.1), Math.min(40, name.height * within(1, 2.2)));
		case 'words':
			throw new RangeError('boxFor: words are placed letter by letter');
	}
}

/** Height of the middle of the letters of a name's last line; lines are about 15 pt apart. */
function lastLine({ y, height }: Box): number {
	const lines = Math.max(1, Math.round(height / 15));
	return y + height - height / lines / 2;
}

function inkOf(rule: ClassRule, sample: Sample, all: readonly Sample[], choice: ChoiceLayout): PlacedInk {
	const tool = pick<Stroke['tool']>(['ballpoint', 'ballpoint', 'pencil', 'felt']);
	const widthMm = within(0.3, 1);
	if (rule.placement !== 'words') {
		const own = inkBox(sample);
		const to = boxFor(rule.placement, own, choice);
		const flat = rule.placement === 'under-name' || rule.placement === 'through-name';
		return placeSample(sample, own, to, tool, Math.min(widthMm, flat ? 0.8 : 1), flat ? within(-0.03, 0.03) : 0);
	}
	const own = all.filter(({ writer }) => writer === sample.writer);
	const line = choice.writeIn;
	const high = within(3, 5.5) * PT_PER_MM;
	let x = line ? line.x + within(2, 12) : choice.name.x + choice.name.width + within(8, 14);
	const base = line ? line.y + line.height - within(1, 4) : choice.name.y + choice.name.height - 1;
	const word = [sample, ...Array.from({ length: Math.floor(within(2, 6)) }, () => pick(own))];
	const placed = word.map((letter) => {
		const box = inkBox(letter);
		// Letters of a set are of one size each; narrow ones keep their proportions.
		const scale = high / Math.max(box.height, 0.6 * box.width, 1e-6);
		const to = { x, y: base - box.height * scale, width: box.width * scale, height: box.height * scale };
		x += to.width + within(0.8, 3);
		return placeSample(letter, box, to, tool, Math.min(widthMm, 0.7));
	});
	return { strokes: placed.flatMap(({ strokes }) => strokes), stamps: placed.flatMap(({ stamps }) => stamps) };
}

function read(page: number, ink: PlacedInk): { marks: readonly Mark[]; image: GreyImage; where: Box } {
	const print = prints[page - 1] as GreyImage;
	const anchors = layout.pages[page - 1]?.choices.map(({ target }) => target) ?? [];
	const image = inkPage(print, { page, strokes: ink.strokes }, anchors);
	for (const { bits, box } of ink.stamps) stampInPlace(image, bits, box, PX_PER_PT);
	const xs = [
		...ink.strokes.flatMap(({ points }) => points.map(([x]) => x)),
		...ink.stamps.flatMap(({ box }) => [box.x, box.x + box.width])
	];
	const ys = [
		...ink.strokes.flatMap(({ points }) => points.map(([, y]) => y)),
		...ink.stamps.flatMap(({ box }) => [box.y, box.y + box.height])
	];
	const [left, top] = [Math.min(...xs), Math.min(...ys)];
	const where = grow({ x: left, y: top, width: Math.max(...xs) - left, height: Math.max(...ys) - top }, 12);
	const { marks } = findMarks(image, print, layout, page, { thresholds: county.thresholds, window: where });
	return { marks, image, where };
}

/** What the reader made of a sample: its largest mark. */
function outcomeOf(rule: ClassRule, sample: Sample, index: number, all: readonly Sample[]): Outcome {
	const pool = rule.placement === 'words' && random() < 0.7 ? writeIns : named;
	const { page, choice } = pick(rule.placement === 'words' && pool === named ? shortNames : pool);
	const { marks, where } = read(page, inkOf(rule, sample, all, choice));
	const mark = [...marks]
		.filter(({ box }) => overlaps(box, where))
		.sort((a, b) => sharedArea(b.box, where) - sharedArea(a.box, where))[0];
	const kind = mark?.kind ?? 'nothing';
	const right = mark !== undefined && rule.kinds.includes(mark.kind);
	if (VERBOSE !== undefined && !right && rule.name.startsWith(VERBOSE))
		process.stdout.write(
			`  ${rule.name}#${index} ${rule.placement}: ${marks.map((m) => `${m.kind} ${m.confidence.toFixed(2)} ${m.place}`).join(', ')} (${choice.contest}/${choice.choice})\n`
		);
	return {
		rule,
		source: `${rule.file}/${sample.writer ?? `${rule.name}${index}`}`,
		kind,
		confidence: mark?.confidence ?? 1,
		right
	};
}

/** Choices with room after their names. */
const shortNames = named.filter(({ page, choice }) => {
	const contest = layout.pages[page - 1]?.contests.find(({ contest: id }) => id === choice.contest);
	return contest !== undefined && contest.box.x + contest.box.width - choice.name.x - choice.name.width > 90;
});

const outcomes = CLASS_RULES.flatMap((rule) => {
	const all = samplesOf(rule);
	return all.flatMap((sample, index) => Array.from({ length: PLACED }, () => outcomeOf(rule, sample, index, all)));
});

const share = (list: readonly Outcome[], test: (one: Outcome) => boolean) =>
	list.length === 0 ? 0 : list.filter(test).length / list.length;
const isRight = ({ right }: Outcome) => right;
const isSurelyWrong = ({ right, kind, confidence }: Outcome) => !right && kind !== 'unsure' && confidence > 0.8;
const percent = (value: number) => `${(100 * value).toFixed(1)} %`.padStart(8);

process.stdout.write(
	`human marks, each placed ${PLACED} times (seed ${SEED}): pens 0.3 to 1.0 mm, ballpoint, pencil, felt-tip; 28 x 28 bits stamped\n` +
		`${'class'.padEnd(17)}${'placement'.padEnd(14)}${'right kinds'.padEnd(26)}${'n'.padStart(6)}${'right'.padStart(9)}${'unsure'.padStart(9)}${'sure, wrong'.padStart(13)}  instead\n`
);
let failed = 0;
for (const rule of CLASS_RULES) {
	const own = outcomes.filter((one) => one.rule === rule);
	const right = share(own, isRight);
	const samples = own.length / PLACED;
	const isShort = !rule.lookAlike && samples >= LIMITS.classFrom && right < LIMITS.rightInClass;
	if (isShort) failed += 1;
	const instead = new Map<string, number>();
	for (const { kind } of own.filter((one) => !one.right)) instead.set(kind, (instead.get(kind) ?? 0) + 1);
	process.stdout.write(
		`${`${rule.name}${rule.lookAlike ? ' *' : ''}`.padEnd(17)}${rule.placement.padEnd(14)}${rule.kinds.join('|').padEnd(26)}${String(own.length).padStart(6)} ${percent(right)} ${percent(share(own, ({ kind }) => kind === 'unsure'))} ${percent(share(own, isSurelyWrong)).padStart(12)}  ` +
			`${[...instead].map(([kind, count]) => `${kind} ${count}`).join(', ')}${isShort ? '  FAIL' : ''}\n`
	);
}
process.stdout.write('* look-alikes: told, not in the overall figure\n');

const scored = outcomes.filter(({ rule }) => !rule.lookAlike);
const overall = share(scored, isRight);
const surelyWrong = share(scored, isSurelyWrong);
const [low, high] = interval(scored);
process.stdout.write(
	`overall ${percent(overall)} right of ${scored.length} (95 % interval ${percent(low)} to ${percent(high)}, drawn again by writer or sample), ` +
		`sure and wrong ${percent(surelyWrong)}\n`
);
if (overall < LIMITS.right) failed += 1;
if (surelyWrong > LIMITS.surelyWrong) failed += 1;
process.stdout.write(
	`limits: right ${percent(LIMITS.right)} overall, ${percent(LIMITS.rightInClass)} in each class of ${LIMITS.classFrom} samples or more, sure and wrong at most ${percent(LIMITS.surelyWrong)}: ${failed === 0 ? 'PASS' : 'FAIL'}\n`
);
if (failed > 0) process.exitCode = 1;

function interval(list: readonly Outcome[]): readonly [number, number] {
	const bySource = new Map<string, Outcome[]>();
	for (const one of list) bySource.set(one.source, [...(bySource.get(one.source) ?? []), one]);
	const groups = [...bySource.values()].map((own) => ({ n: own.length, right: own.filter(isRight).length }));
	const shares = Array.from({ length: 400 }, () => {
		let [n, right] = [0, 0];
		for (let i = 0; i < groups.length; i++) {
			const group = pick(groups);
			n += group.n;
			right += group.right;
		}
		return right / n;
	}).sort((a, b) => a - b);
	return [shares[10] ?? 0, shares[389] ?? 0];
}
