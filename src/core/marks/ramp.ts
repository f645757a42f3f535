/** 0 at `from`, 1 at `to`, straight between and level beyond; falls where `to` is below `from`. */
export function ramp(value: number, from: number, to: number): number {
	return Math.max(0, Math.min(1, (value - from) / (to - from)));
}
