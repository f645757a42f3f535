/** A text of the page's language by its key in `locales/`. */
export type Translate = (key: string, values?: Record<string, unknown>) => string;
