const MINUTE_MS = 60_000;

/**
 * Tells the time now and every minute, until the function that it returns is called: an answer changes at its cut-off,
 * also on a page that stays open.
 */
export function everyMinute(tell: (nowUtcMs: number) => void): () => void {
	tell(Date.now());
	const clock = setInterval(() => {
		tell(Date.now());
	}, MINUTE_MS);
	return () => {
		clearInterval(clock);
	};
}
