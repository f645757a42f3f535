import { slotted, type Known } from './checkPassages';
import type { CorrectionMethod, Stage } from './election';
import { fields, flag, list, oneOf, words } from './fields';
import { at } from './report';
import { text, type Scope } from './scope';

export const STAGES: readonly Stage[] = ['holding', 'polling-place', 'mailed'];

export const CORRECTION_METHODS: readonly CorrectionMethod[] = [
	'replacement-only',
	'cross-out-allowed',
	'cross-out-preferred',
	'cross-out-last-resort',
	'undecided'
];

/** The answer is the opposite in the next county, so none is ever filled in for an office. */
const DECIDE = 'Ask who decides this in your office and write it before you publish; there is no default.';

/** Reports every problem of the instructions. Open answers on corrections hold publishing back and nothing else. */
export function checkInstructions(scope: Scope, value: unknown, known: Known): void {
	const { report } = scope;
	const path = 'instructions';
	const required = ['pen', 'mark', 'writeIn', 'pollingPlaceWarns'];
	const instructions = fields(report, value, path, required, ['correction']);
	if (!instructions) return;
	for (const name of ['pen', 'mark', 'writeIn']) text(scope, instructions[name], at(path, name));
	checkCorrection(scope, instructions.correction, at(path, 'correction'), known);
	const warnsPath = at(path, 'pollingPlaceWarns');
	const warns = fields(report, instructions.pollingPlaceWarns, warnsPath, ['overvote', 'blank']);
	if (!warns) return;
	flag(report, warns.overvote, at(warnsPath, 'overvote'));
	flag(report, warns.blank, at(warnsPath, 'blank'));
}

function checkCorrection(scope: Scope, value: unknown, path: string, known: Known): void {
	const { report } = scope;
	if (value === undefined) {
		report.hold(path, 'how a mistake is put right', undefined, DECIDE);
		return;
	}
	const correction = fields(report, value, path, [], ['method', 'steps', 'cite', 'invented']);
	if (!correction) return;
	// '' and `undecided` say the same: nobody has answered yet.
	const method = oneOf<CorrectionMethod | ''>(report, correction.method, at(path, 'method'), [
		...CORRECTION_METHODS,
		''
	]);
	const open = correction.method === undefined || method === '' || method === 'undecided';
	if (open) report.hold(at(path, 'method'), 'which way mistakes are put right', correction.method, DECIDE);
	checkSteps(scope, correction.steps, at(path, 'steps'), known);
	if (correction.cite === undefined)
		report.hold(at(path, 'cite'), 'the rule or the person that decided it', undefined, DECIDE);
	words(report, correction.cite, at(path, 'cite'));
	flag(report, correction.invented, at(path, 'invented'));
}

function checkSteps(scope: Scope, value: unknown, path: string, known: Known): void {
	const { report } = scope;
	if (value === undefined) {
		report.hold(path, 'steps for each stage', undefined, DECIDE);
		return;
	}
	const stages = fields(report, value, path, [], STAGES);
	if (!stages) return;
	for (const stage of STAGES) {
		const steps = stages[stage];
		const stagePath = at(path, stage);
		if (steps === undefined || (Array.isArray(steps) && steps.length === 0))
			report.hold(stagePath, 'at least one step', steps, DECIDE);
		list(report, steps, stagePath).forEach((step, i) => {
			slotted(scope, step ?? null, at(stagePath, i), known);
		});
	}
}
