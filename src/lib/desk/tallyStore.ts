import { parseTally, type Tally } from './tally';

/** Where the tally lies in this browser; the only thing that the app ever keeps, and only sums. */
const KEY = 'fairhand.calls';

type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** `unreadable`: something lies there that is no tally. `barred`: this browser keeps nothing. */
export type Kept = { readonly tally: Tally | undefined } | { readonly failure: 'unreadable' | 'barred' };

export function readTally(store: () => Store): Kept {
	let text: string | null;
	try {
		text = store().getItem(KEY);
	} catch {
		return { failure: 'barred' };
	}
	if (text === null) return { tally: undefined };
	const tally = parseTally(text);
	return tally ? { tally } : { failure: 'unreadable' };
}

/** Reads what is there and puts `change` in its place, so that two open desks add up. Nothing unreadable is replaced. */
export function changeTally(store: () => Store, change: (tally: Tally | undefined) => Tally): Kept {
	const kept = readTally(store);
	if ('failure' in kept) return kept;
	const tally = change(kept.tally);
	try {
		store().setItem(KEY, JSON.stringify(tally));
	} catch {
		return { failure: 'barred' };
	}
	return { tally };
}

export function clearTally(store: () => Store): Kept {
	try {
		store().removeItem(KEY);
	} catch {
		return { failure: 'barred' };
	}
	return { tally: undefined };
}
