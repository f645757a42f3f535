import { expect, it } from 'vitest';
import { Call } from '../../../src/lib/desk/call.svelte';

it('takes back the answer from the search first, then one choice at a time, and with each the code', () => {
	const call = new Call();
	expect(call.isBegun).toBe(false);
	call.choose('with-me');
	call.choose('home');
	call.pick('pencil');
	call.code = 'other';
	expect([call.isBegun, call.path, call.picked]).toEqual([true, ['with-me', 'home'], 'pencil']);
	call.back();
	expect([call.path, call.picked, call.code]).toEqual([['with-me', 'home'], '', '']);
	call.back();
	expect([call.isBegun, call.path]).toEqual([true, ['with-me']]);
	call.back();
	expect([call.isBegun, call.path]).toEqual([false, []]);
});
