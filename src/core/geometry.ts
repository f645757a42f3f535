/** A place on a page, in points (1/72 in) from the page's top left corner, y down. */
export interface Point {
	readonly x: number;
	readonly y: number;
}

/** A rectangle on a page, in points, by its top left corner and its size. */
export interface Box {
	readonly x: number;
	readonly y: number;
	readonly width: number;
	readonly height: number;
}

/** Whether `point` lies in `box`, edges included. */
export function contains(box: Box, point: Point): boolean {
	return point.x >= box.x && point.x <= box.x + box.width && point.y >= box.y && point.y <= box.y + box.height;
}

/** Whether two boxes share any area. Boxes that only touch do not. */
export function overlaps(a: Box, b: Box): boolean {
	return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/** The box grown by `by` points on every side (shrunk where `by` is negative). */
export function grow(box: Box, by: number): Box {
	return { x: box.x - by, y: box.y - by, width: box.width + 2 * by, height: box.height + 2 * by };
}

/** The smallest box around all of `boxes`. Throws a RangeError when there are none. */
export function around(boxes: readonly Box[]): Box {
	if (boxes.length === 0) throw new RangeError('around: expected at least one box, got none');
	const x = Math.min(...boxes.map((b) => b.x));
	const y = Math.min(...boxes.map((b) => b.y));
	const right = Math.max(...boxes.map((b) => b.x + b.width));
	const bottom = Math.max(...boxes.map((b) => b.y + b.height));
	return { x, y, width: right - x, height: bottom - y };
}

/** Area two boxes share, in square points; 0 when they do not overlap. */
export function sharedArea(a: Box, b: Box): number {
	const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
	const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
	return width > 0 && height > 0 ? width * height : 0;
}
