import type { TargetShape, TargetSide } from '$core/election/election';
import type { Box } from '$core/geometry';
import { targetOutline } from '$core/layout/targetOutline';

/** The printed target as SVG path data, in points on the page. */
export function outlinePath(shape: TargetShape, side: TargetSide, box: Box): string {
	return targetOutline(shape, side, box)
		.map(({ points, closed }) => {
			const pairs: string[] = [];
			for (let i = 0; i + 1 < points.length; i += 2)
				pairs.push(`${(points[i] ?? 0).toFixed(2)} ${(points[i + 1] ?? 0).toFixed(2)}`);
			return `M${pairs.join('L')}${closed ? 'Z' : ''}`;
		})
		.join('');
}
