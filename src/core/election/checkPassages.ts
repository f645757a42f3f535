import { DATE_IDS, fields, identifier, list, oneOf } from './fields';
import { at } from './report';
import { text, unique, type Scope } from './scope';
import { SLOT, slotsIn } from './slots';

/** What the slots of a file's texts may name. `dates` is undefined where the file's own list could not be read. */
export interface Known {
	readonly dates: ReadonlySet<string> | undefined;
	readonly passages: ReadonlySet<string>;
}

/** What a slot of this file may name: its dates and passages, whatever else may be the matter with them. */
export const knownIn = (dates: unknown, passages: unknown): Known => ({
	dates: idsOf(dates),
	passages: idsOf(passages) ?? new Set()
});

/** Reports every problem of the passages. */
export function checkPassages(scope: Scope, value: unknown, { dates }: Known): void {
	const { report } = scope;
	const seen = new Set<string>();
	// A passage holds no passages.
	const known: Known = { dates, passages: new Set() };
	list(report, value, 'passages').forEach((entry, i) => {
		const path = at('passages', i);
		const passage = fields(report, entry ?? null, path, ['id', 'text'], ['after']);
		if (!passage) return;
		unique(report, seen, identifier(report, passage.id, at(path, 'id')), at(path, 'id'));
		slotted(scope, passage.text, at(path, 'text'), known);
		list(report, passage.after, at(path, 'after')).forEach((later, k) => {
			const laterPath = at(at(path, 'after'), k);
			const change = fields(report, later ?? null, laterPath, ['date', 'text']);
			if (!change) return;
			const date = oneOf(report, change.date, at(laterPath, 'date'), DATE_IDS);
			if (date !== undefined && dates?.has(date) === false)
				report.add(at(laterPath, 'date'), 'a date of this file', date, 'Add that date to "dates", or take another.');
			slotted(scope, change.text, at(laterPath, 'text'), known);
		});
	});
}

const idsOf = (value: unknown): ReadonlySet<string> | undefined =>
	Array.isArray(value)
		? new Set(value.map((entry) => String((entry as { readonly id?: unknown } | null)?.id)))
		: undefined;

/** A text, and in it slots that this file can fill. */
export function slotted(scope: Scope, value: unknown, path: string, known: Known): void {
	text(scope, value, path);
	if (typeof value !== 'object' || value === null) return;
	for (const [language, line] of Object.entries(value))
		for (const slot of typeof line === 'string' ? slotsIn(line) : [])
			if (!canFill(slot, known))
				scope.report.add(
					at(path, language),
					SLOT,
					`{{${slot}}}`,
					'Correct what stands in the double braces, or add what it names.'
				);
}

function canFill(slot: string, { dates, passages }: Known): boolean {
	if (slot.startsWith('date:')) return dates?.has(slot.slice('date:'.length)) ?? true;
	if (slot.startsWith('say:')) return passages.has(slot.slice('say:'.length));
	return slot === 'office.name' || slot === 'office.phone' || slot === 'office.web';
}
