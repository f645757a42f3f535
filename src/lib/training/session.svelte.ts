import type { Quiz } from './quiz.svelte';
import type { Review } from './review.svelte';

/**
 * The round that somebody is at. It outlasts a look at a rulebook or an answer on another page of the app, and is gone
 * when the app is loaded anew. Set in the browser only.
 */
class Session {
	review = $state.raw<Review | undefined>();
	quiz = $state.raw<Quiz | undefined>();
}

export const session = new Session();
