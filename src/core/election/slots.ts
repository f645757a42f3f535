/** What may stand in double braces in an answer, for people who write one. */
export const SLOT = '{{date:ID}}, {{say:ID}}, {{office.name}}, {{office.phone}} or {{office.web}}';

const SLOTS = /{{([^{}]*)}}/g;

/** What stands in the double braces of a text, in order, without the braces. */
export function slotsIn(text: string): readonly string[] {
	return [...text.matchAll(SLOTS)].map((match) => (match[1] ?? '').trim());
}

/** The text with each slot replaced; `fill` gets what stood in the braces. */
export function fillSlots(text: string, fill: (slot: string) => string): string {
	return text.replace(SLOTS, (_, slot: string) => fill(slot.trim()));
}
