import type { Tool } from '$core/ink/stroke';

/** The pens in the order of the tray; the key of each is its place, from 1. */
export const TOOLS: readonly Tool[] = ['ballpoint', 'pencil', 'felt', 'faint', 'dry', 'eraser'];

/** The pen that a plain digit key takes. Keys with Alt, Ctrl or Meta belong to the browser. */
export function toolOfKey(event: Pick<KeyboardEvent, 'key' | 'altKey' | 'ctrlKey' | 'metaKey'>): Tool | undefined {
	if (event.altKey || event.ctrlKey || event.metaKey || !/^[1-9]$/.test(event.key)) return undefined;
	return TOOLS[Number(event.key) - 1];
}
