import type { Layout } from '../layout/layout';

/** What files of a layout's sheets are called. Ids and tags are letters, digits and hyphens: good for any disk. */
export const layoutName = ({
	style,
	languages,
	printSize
}: Pick<Layout, 'style' | 'languages' | 'printSize'>): string =>
	[style, ...languages, ...(printSize === 'large' ? ['large'] : [])].join('-');
