import { parseEvent, type EventTally } from './eventTally';
import { parseTimes, USUAL_TIMES, type IdleTimes } from './idle';

/** Where the sums of an event lie in this browser, and where how long the screen waits. */
const TALLY_KEY = 'fairhand.event';
const TIMES_KEY = 'fairhand.event.times';

type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** `unreadable`: something lies there that is no tally. `barred`: this browser keeps nothing. */
export type KeptEvent = { readonly tally: EventTally | undefined } | { readonly failure: 'unreadable' | 'barred' };

export function readEvent(store: () => Store): KeptEvent {
	let text: string | null;
	try {
		text = store().getItem(TALLY_KEY);
	} catch {
		return { failure: 'barred' };
	}
	if (text === null) return { tally: undefined };
	const tally = parseEvent(text);
	return tally ? { tally } : { failure: 'unreadable' };
}

/** Reads what is there and puts `change` in its place, so that two open screens add up. Nothing unreadable is replaced. */
export function changeEvent(store: () => Store, change: (tally: EventTally | undefined) => EventTally): KeptEvent {
	const kept = readEvent(store);
	if ('failure' in kept) return kept;
	const tally = change(kept.tally);
	try {
		store().setItem(TALLY_KEY, JSON.stringify(tally));
	} catch {
		return { failure: 'barred' };
	}
	return { tally };
}

export function clearEvent(store: () => Store): KeptEvent {
	try {
		store().removeItem(TALLY_KEY);
	} catch {
		return { failure: 'barred' };
	}
	return { tally: undefined };
}

/** How long the screen waits; as usual where nothing else was set, or it cannot be read. */
export function readTimes(store: () => Store): IdleTimes {
	try {
		return parseTimes(store().getItem(TIMES_KEY) ?? '') ?? USUAL_TIMES;
	} catch {
		return USUAL_TIMES;
	}
}

/** Where the browser keeps nothing, the times hold until the screen is left. */
export function keepTimes(store: () => Store, times: IdleTimes): void {
	try {
		store().setItem(TIMES_KEY, JSON.stringify(times));
	} catch {
		return;
	}
}
