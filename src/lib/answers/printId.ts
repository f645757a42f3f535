import type { GalleryContest } from '$core/answers/gallery';

/** Id of a printed contest's drawing on the page, which every picture on it uses. */
export const printId = (contest: GalleryContest): string => `printed-${contest}`;
