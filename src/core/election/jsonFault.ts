/** What may come next in a JSON text (RFC 8259). */
type Next = 'value' | 'value-or-end' | 'name' | 'name-or-end' | 'colon' | 'comma-or-end' | 'end';

/** Strings are walked by hand below; these are the other tokens. */
const SPACE = /[ \t\n\r]*/y;
const SCALAR = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

/**
 * Offset of the first character at which `text` stops being JSON (its length where more was expected); undefined where
 * it is JSON. Engines differ in whether their message tells the place, so it is found here. Time grows with the
 * length of the text, and depth takes memory of a list, not of the call stack.
 */
export function jsonFault(text: string): number | undefined {
	const open: ('{' | '[')[] = [];
	let next: Next = 'value';
	for (let i = skip(SPACE, text, 0); i < text.length; i = skip(SPACE, text, i)) {
		const c = text[i];
		const mayEnd = next === 'comma-or-end' || next === 'value-or-end' || next === 'name-or-end';
		if (mayEnd && ((c === '}' && open.at(-1) === '{') || (c === ']' && open.at(-1) === '['))) {
			// An empty list may end where a value may come, an empty object where a name may.
			open.pop();
			next = open.length === 0 ? 'end' : 'comma-or-end';
			i++;
		} else if (next === 'comma-or-end' && c === ',') {
			next = open.at(-1) === '{' ? 'name' : 'value';
			i++;
		} else if (next === 'colon' && c === ':') {
			next = 'value';
			i++;
		} else if ((next === 'name' || next === 'name-or-end') && c === '"') {
			const after = afterString(text, i);
			if (after < 0) return ~after;
			next = 'colon';
			i = after;
		} else if (next === 'value' || next === 'value-or-end') {
			if (c === '{' || c === '[') {
				open.push(c);
				next = c === '{' ? 'name-or-end' : 'value-or-end';
				i++;
				continue;
			}
			const after = c === '"' ? afterString(text, i) : skip(SCALAR, text, i);
			if (after < 0) return ~after;
			if (after === i) return i;
			next = open.length === 0 ? 'end' : 'comma-or-end';
			i = after;
		} else return i;
	}
	return next === 'end' ? undefined : text.length;
}

/** The offset after what `token` matches at `from`, or `from`. */
function skip(token: RegExp, text: string, from: number): number {
	token.lastIndex = from;
	return token.test(text) ? token.lastIndex : from;
}

/** The offset after the string that begins at `from`; where it is faulty, the fault's offset as its complement. */
function afterString(text: string, from: number): number {
	let i = from + 1;
	while (i < text.length) {
		const code = text.charCodeAt(i);
		if (code === 0x22) return i + 1;
		if (code < 0x20) return ~i;
		if (code !== 0x5c) i++;
		else if (skip(ESCAPE, text, i) === i) return ~i;
		else i = ESCAPE.lastIndex;
	}
	return ~text.length;
}
