import { PX_PER_MM, PX_PER_PT } from '../image';
import type { Mishap } from '../ink/stroke';
import { blotchAt } from './blotchAt';
import { darken, rowsWithin, type InkLayers } from './inkLayers';

/** Light that the inside and the rim of a coffee stain take: grey 225 to 235, and about 200. Found by trial. */
const INSIDE = 0.08;
const RIM = 0.24;

/** Width of the rim, in millimetres, and how far the outline strays, as a share of the radius. Found by trial. */
const RIM_MM = 1.1;
const STRAY_SHARE = 0.045;

/** A coffee stain: a pale blot with a darker rim, not quite round and not quite even. */
export function drawStain(layers: InkLayers, stain: Extract<Mishap, { kind: 'stain' }>, seed: number): void {
	const centreX = stain.x * PX_PER_PT;
	const centreY = stain.y * PX_PER_PT;
	const radius = stain.radiusPt * PX_PER_PT;
	const rim = RIM_MM * PX_PER_MM;
	const largest = radius * (1 + STRAY_SHARE) + 2;
	const allInside = radius * (1 - STRAY_SHARE) - rim;
	const [ownSeed, rimSeed, insideSeed] = [1, 2, 3].map((part) => Math.imul(stain.seed, 0x2545f) + seed + part);
	rowsWithin(layers, centreX - largest, centreY - largest, centreX + largest, centreY + largest, (y, x0, x1) => {
		const dy = y + 0.5 - centreY;
		for (let x = x0; x < x1; x++) {
			const dx = x + 0.5 - centreX;
			const far = Math.sqrt(dx * dx + dy * dy);
			if (far > largest) continue;
			const inside = INSIDE * (0.75 + 0.5 * blotchAt(x / 40, y / 40, insideSeed ?? 0));
			if (far < allInside) {
				darken(layers, x, y, inside);
				continue;
			}
			const [aroundX, aroundY] = far > 0 ? [dx / far, dy / far] : [1, 0];
			const stray = 2 * blotchAt(aroundX * 1.6, aroundY * 1.6, ownSeed ?? 0) - 1;
			const inwards = radius * (1 + STRAY_SHARE * stray) - far;
			if (inwards <= -1) continue;
			const edge = inwards >= 1 ? 1 : (inwards + 1) / 2;
			const rimShare = inwards < rim ? 1 - Math.max(0, inwards) / rim : 0;
			const rimHere = RIM * (0.55 + 0.6 * blotchAt(aroundX * 1.7, aroundY * 1.7, rimSeed ?? 0));
			darken(layers, x, y, edge * (inside + Math.max(0, rimHere - inside) * rimShare));
		}
	});
}
