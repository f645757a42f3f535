import { describe, expect, test } from 'vitest';
import type { MistakeCodeId } from '$core/answers/mistakeCodes';
import { idleAfter, QUIET_CHOICES_S, USUAL_TIMES, WARNING_CHOICES_S } from '$lib/event/idle';
import { Visit } from '$lib/event/visit';

/** A sheet on which each look finds what is put into `codes`. */
function visitOn() {
	const sheet = {
		hasInk: true,
		finished: true,
		codes: [] as MistakeCodeId[] | undefined,
		settled: () => Promise.resolve(),
		look() {
			return this.codes && this.finished ? { codes: this.codes, isClear: this.codes.length === 0 } : undefined;
		}
	};
	const tallied: [moment: string, codes: readonly MistakeCodeId[]][] = [];
	return { sheet, tallied, visit: new Visit(sheet, (moment, codes) => tallied.push([moment, codes])) };
}

describe('a visit to the tablet', () => {
	test('tallies the first reading once, and the last sheet at its end', async () => {
		const { sheet, tallied, visit } = visitOn();
		sheet.codes = ['too-many'];
		await visit.read();
		sheet.codes = ['crossed-out'];
		await visit.read();
		sheet.codes = [];
		expect(await visit.end()).toBe(true);
		expect(tallied).toEqual([
			['before', ['too-many']],
			['after', []]
		]);
	});

	test('reads ink at its end that nobody asked to have read', async () => {
		const { sheet, tallied, visit } = visitOn();
		await visit.read();
		sheet.codes = ['torn'];
		sheet.finished = false;
		expect(await visit.end()).toBe(false);
		expect(tallied.at(-1)).toEqual(['after', ['torn']]);
	});

	test('takes the sheet before for the last one where a fresh sheet stayed empty', async () => {
		const { sheet, tallied, visit } = visitOn();
		sheet.codes = ['too-many'];
		await visit.read();
		sheet.codes = [];
		sheet.hasInk = false;
		expect(await visit.end()).toBe(false);
		expect(tallied.at(-1)).toEqual(['after', ['too-many']]);
	});

	test('is in neither table where no sheet was read, or none could be', async () => {
		const unread = visitOn();
		expect(await unread.visit.end()).toBe(false);
		const failed = visitOn();
		failed.sheet.codes = undefined;
		await failed.visit.read();
		expect(await failed.visit.end()).toBe(false);
		expect([...unread.tallied, ...failed.tallied]).toEqual([]);
	});

	test('ends once, even while its reading is under way', async () => {
		const { tallied, visit } = visitOn();
		const reading = visit.read();
		await Promise.all([visit.end(), visit.end(), reading]);
		expect(tallied.map(([moment]) => moment)).toEqual(['before', 'after']);
	});
});

describe('a screen that nobody touches', () => {
	test('asks after a minute, tells the seconds left, and starts over after 20 more', () => {
		expect(idleAfter(59_999, USUAL_TIMES)).toEqual({ kind: 'active' });
		expect(idleAfter(60_000, USUAL_TIMES)).toEqual({ kind: 'warning', leftS: 20 });
		expect(idleAfter(79_001, USUAL_TIMES)).toEqual({ kind: 'warning', leftS: 1 });
		expect(idleAfter(80_000, USUAL_TIMES)).toEqual({ kind: 'over' });
	});

	test('starts over at once where the tablet slept', () => {
		expect(idleAfter(3_600_000, USUAL_TIMES)).toEqual({ kind: 'over' });
	});

	// WCAG 2.2, success criterion 2.2.1: at least ten times the default setting.
	test('can be made to wait ten times as long', () => {
		expect(Math.max(...QUIET_CHOICES_S)).toBeGreaterThanOrEqual(10 * USUAL_TIMES.quietS);
		expect(Math.max(...WARNING_CHOICES_S)).toBeGreaterThanOrEqual(10 * USUAL_TIMES.warningS);
	});
});
