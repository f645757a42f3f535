import { getContext, setContext } from 'svelte';

const KEY = Symbol('mayCall');

/** Whether the office's number is a link that calls it: not at its own desk, and not on a tablet that stays on one page. */
export const mayCall = (): boolean => getContext<boolean | undefined>(KEY) ?? true;

/** No number is a link in this component and in what it holds. Call while it is made. */
export function callNobody(): void {
	setContext(KEY, false);
}
