import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { county } from '$core/election/demo';
import type { TargetShape, TargetSide } from '$core/election/election';
import { placeMark } from '$core/ink/placeMark';
import type { Stroke, Tool } from '$core/ink/stroke';
import { layOut } from '$core/layout/layOutBallot';
import { classify, classifyByLikeness } from '$core/marks/classify';
import { findComponents } from '$core/marks/components';
import { featuresOf, type Features } from '$core/marks/features';
import { groupComponents } from '$core/marks/groupComponents';
import { findResidual } from '$core/marks/residual';
import { whereaboutsOf } from '$core/marks/whereabouts';
import { inkPage } from '$core/page/inkPage';
import { printPage } from '$core/page/printPage';
import en from '$locales/en.json';

const SHAPES: readonly TargetShape[] = ['oval', 'box', 'arrow'];
const TOOLS: readonly Tool[] = ['ballpoint', 'felt', 'pencil', 'faint', 'dry'];
const KINDS = [
	'fill',
	'partial',
	'light',
	'check',
	'cross',
	'dot',
	'ring',
	'circle-name',
	'cross-out',
	'join-arrow',
	'underline-name',
	'write-in',
	'beside'
] as const;

const sheets = new Map(
	SHAPES.flatMap((shape) =>
		(['left', 'right'] as const).map((side) => {
			const layout = layOut(
				{ ...county, target: { ...county.target, shape, side } },
				county.styles[0]!.id,
				{ en: en.layout },
				['en']
			);
			return [`${shape} ${side}`, { layout, print: printPage(layout, 1) }] as const;
		})
	)
);

/** Every piece of ink on the first page, measured. */
function marksOf(shape: TargetShape, side: TargetSide, strokesAt: (at: number) => readonly Stroke[], at: number) {
	const { layout, print } = sheets.get(`${shape} ${side}`)!;
	const [sheet] = layout.pages;
	const anchors = sheet!.choices.map(({ target }) => target);
	const page = inkPage(print, { page: 1, strokes: strokesAt(at) }, anchors);
	const residual = findResidual(page, print, { xPx: 0, yPx: 0, widthPx: print.width, heightPx: print.height });
	return groupComponents(findComponents(residual), sheet!).map((group) => ({
		features: featuresOf(group),
		where: whereaboutsOf(group, sheet!)
	}));
}

/** The same features, of which none that costs much may be asked for. */
const cheapOnly = (features: Features): Features =>
	new Proxy(features, {
		get(target, name) {
			if (
				['strokes', 'lengthMm', 'penMm', 'thickestMm', 'holes', 'holeShare', 'roundShare', 'innerShare'].includes(
					String(name)
				)
			)
				throw new Error(`expected nothing to be asked for but cheap features, got "${String(name)}"`);
			return Reflect.get(target, name) as unknown;
		}
	});

describe('classify', () => {
	test('tells a plain fill without following its lines, and the same as with them', () => {
		let plain = 0;
		fc.assert(
			fc.property(
				fc.constantFrom(...SHAPES),
				fc.constantFrom('left' as const, 'right' as const),
				fc.constantFrom(...TOOLS),
				fc.array(fc.oneof(fc.constant('fill' as const), fc.constantFrom(...KINDS)), { minLength: 1, maxLength: 3 }),
				fc.nat(9),
				fc.nat(1000),
				(shape, side, tool, kinds, at, seed) => {
					const { layout } = sheets.get(`${shape} ${side}`)!;
					const strokesAt = (index: number): readonly Stroke[] =>
						kinds.flatMap((kind, i) =>
							placeMark(kind, layout.pages[0]!.choices[index]!, { tool, shape, side, seed: seed + i })
						);
					for (const { features, where } of marksOf(shape, side, strokesAt, at)) {
						const verdict = classify(features, where, shape, side);
						expect(verdict).toEqual(classifyByLikeness(features, where, shape, side));
						if (verdict.kind === 'fill' && verdict.confidence >= 0.75) plain += 1;
					}
				}
			),
			{ numRuns: 150 }
		);
		expect(plain).toBeGreaterThan(20);
	}, 120_000);

	test.each(['oval', 'box'] as const)('asks of a filled %s only what is cheap to measure', (shape) => {
		const { layout } = sheets.get(`${shape} left`)!;
		const strokesAt = (at: number): readonly Stroke[] =>
			placeMark('fill', layout.pages[0]!.choices[at]!, { tool: 'ballpoint', shape, side: 'left', seed: at });
		for (let at = 0; at < 8; at += 1) {
			const [mark] = marksOf(shape, 'left', strokesAt, at);
			expect(classify(cheapOnly(mark!.features), mark!.where, shape, 'left').kind).toBe('fill');
		}
	});

	test('takes ink in the gap of an arrow for no fill, however much of it there is', () => {
		const { layout } = sheets.get('arrow left')!;
		const strokesAt = (at: number): readonly Stroke[] =>
			placeMark('fill', layout.pages[0]!.choices[at]!, { tool: 'felt', shape: 'box', side: 'left' });
		const [mark] = marksOf('arrow', 'left', strokesAt, 3);
		expect(classify(mark!.features, mark!.where, 'box', 'left').kind).toBe('fill');
		expect(classify(mark!.features, mark!.where, 'arrow', 'left').kind).not.toBe('fill');
	});
});
