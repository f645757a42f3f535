import en from '$locales/en.json';
import es from '$locales/es.json';

/** The texts of a language by their full key, such as `home.steps.title`. Anything but a text is listed as undefined. */
export function textsOf(bundle: object, above = ''): Map<string, string | undefined> {
	const texts = new Map<string, string | undefined>();
	for (const [name, value] of Object.entries(bundle) as [string, unknown][]) {
		const key = above + name;
		if (typeof value === 'object' && value !== null)
			for (const [inner, text] of textsOf(value, `${key}.`)) texts.set(inner, text);
		else texts.set(key, typeof value === 'string' ? value : undefined);
	}
	return texts;
}

export const locales = { en: textsOf(en), es: textsOf(es) };

const PLURAL = /_(zero|one|two|few|many|other)$/;

/** A key without its plural ending: the key that the code asks for. */
export const askedKey = (key: string): string => key.replace(PLURAL, '');

/** The plural ending of a key, or undefined. */
export const pluralOf = (key: string): string | undefined => PLURAL.exec(key)?.[1];

/** Names inside `{{ }}`. */
export const placeholdersOf = (text: string): string[] => [...text.matchAll(/{{\s*(\w+)/g)].map((match) => match[1]!);

/** The text as it is read: without placeholders. */
export const withoutPlaceholders = (text: string, instead = '…'): string => text.replace(/{{[^}]*}}/g, instead);
