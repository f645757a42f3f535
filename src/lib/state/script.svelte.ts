import { onMount } from 'svelte';

/**
 * Whether the page's script runs in this component yet. A page is there before its script; a choice that is made in
 * between would be lost, so what is chosen from waits. Call while a component is set up.
 */
export function script(): { readonly runs: boolean } {
	let runs = $state(false);
	onMount(() => {
		runs = true;
	});
	return {
		get runs() {
			return runs;
		}
	};
}
