/** A drawing of `drawPage` without its own frame, to stand inside another SVG that shows it or a part of it. */
export const unframed = (svg: string): string => svg.replace(/^\s*<svg[^>]*>/, '').replace(/<\/svg>\s*$/, '');
