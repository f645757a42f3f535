import { resolve } from '$app/paths';
import type { Rulebook } from '$core/rules/rule';

let asked: Promise<readonly Rulebook[]> | undefined;

/** All rulebooks, fetched once a visit. Call in the browser only. Throws when they cannot be had; the next call asks again. */
export function loadRulebooks(): Promise<readonly Rulebook[]> {
	asked ??= ask().catch((error: unknown) => {
		asked = undefined;
		throw error;
	});
	return asked;
}

async function ask(): Promise<readonly Rulebook[]> {
	const address = resolve('/rulebooks.json');
	const answer = await fetch(address);
	if (!answer.ok) throw new Error(`loadRulebooks: expected ${address}, got status ${answer.status}; reload the page`);
	return answer.json() as Promise<readonly Rulebook[]>;
}
