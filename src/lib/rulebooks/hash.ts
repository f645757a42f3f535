import { afterNavigate, goto } from '$app/navigation';
import { onMount } from 'svelte';

/**
 * Calls `follow` with the address' hash when the page opens and whenever it changes: after a link, a choice on the page,
 * or the way back. Call while a component is made.
 */
export function followHash(follow: (hash: string) => Promise<void>): void {
	const now = (): void => void follow(location.hash);
	// SvelteKit tells of its own navigations; of a hash that the browser itself has changed only the browser does.
	afterNavigate(now);
	onMount(() => {
		window.addEventListener('hashchange', now);
		return () => {
			window.removeEventListener('hashchange', now);
		};
	});
}

/** Goes to a place on this page and leaves the view and the focus where they are. `instead`: the way back skips this one. */
export function goToHash(hash: string, { instead = false }: { readonly instead?: boolean } = {}): void {
	// eslint-disable-next-line svelte/no-navigation-without-resolve -- a place on this page
	void goto(hash, { replaceState: instead, noScroll: true, keepFocus: true });
}
