/** How long a shared screen waits for a touch, and then for an answer to "Still there?". */
export interface IdleTimes {
	readonly quietS: number;
	readonly warningS: number;
}

export const USUAL_TIMES: IdleTimes = { quietS: 60, warningS: 20 };

/** WCAG 2.2, 2.2.1: a time limit can be set to ten times its usual length, and one press extends it (20 s at least). */
export const QUIET_CHOICES_S: readonly number[] = [60, 120, 300, 600];
export const WARNING_CHOICES_S: readonly number[] = [20, 40, 60, 200];

/** `active`; `warning` with the whole seconds left; or `over`: the next person starts. */
export type Idle =
	{ readonly kind: 'active' } | { readonly kind: 'warning'; readonly leftS: number } | { readonly kind: 'over' };

/** What a screen does that nobody has touched for so long. A tablet that slept wakes up as `over`. */
export function idleAfter(quietMs: number, { quietS, warningS }: IdleTimes): Idle {
	if (quietMs < quietS * 1000) return { kind: 'active' };
	const leftMs = (quietS + warningS) * 1000 - quietMs;
	return leftMs > 0 ? { kind: 'warning', leftS: Math.ceil(leftMs / 1000) } : { kind: 'over' };
}

/** Times kept on a device, or undefined where the text is none or not one of the choices. */
export function parseTimes(text: string): IdleTimes | undefined {
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch {
		return undefined;
	}
	if (typeof value !== 'object' || value === null) return undefined;
	const { quietS, warningS } = value as Partial<Record<keyof IdleTimes, unknown>>;
	if (typeof quietS !== 'number' || !QUIET_CHOICES_S.includes(quietS)) return undefined;
	if (typeof warningS !== 'number' || !WARNING_CHOICES_S.includes(warningS)) return undefined;
	return { quietS, warningS };
}
