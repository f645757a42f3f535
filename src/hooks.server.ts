import type { Handle } from '@sveltejs/kit';

/** Runs once a page while prerendering: the language of the page, and its two most used fonts fetched early. */
export const handle: Handle = ({ event, resolve }) =>
	resolve(event, {
		transformPageChunk: ({ html }) => html.replace('%lang%', event.params.lang ?? 'en').replace('%dir%', 'ltr'),
		preload: ({ type, path }) =>
			type === 'js' || type === 'css' || (type === 'font' && path.includes('-latin-') && !path.includes('-latin-ext-'))
	});
