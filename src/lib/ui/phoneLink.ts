/** Digits with what people set between them, and an extension. */
const NUMBER = /^(\+?[\d\s().\u2013/-]*\d)(?:[\s,;]*(?:x|ext\.?)\s*(\d+))?$/i;

/**
 * The address that calls a number as an office writes it, such as "tel:5550142" (RFC 3966); undefined where the text is
 * not one number.
 */
export function phoneLink(phone: string): string | undefined {
	const [, number = '', extension] = NUMBER.exec(phone.trim()) ?? [];
	const digits = number.replace(/[^\d+]/g, '');
	if (digits.length < 3) return undefined;
	return `tel:${digits}${extension === undefined ? '' : `;ext=${extension}`}`;
}
