import { json } from '@sveltejs/kit';
import { SETS } from '$lib/rulebooks/sets.server';
import type { RequestHandler } from './$types';

export const prerender = true;

/** All rulebooks as one file of data, without the white space of their own files. */
export const GET: RequestHandler = () => json(SETS);
