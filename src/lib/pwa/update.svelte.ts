/**
 * The app's own copy on this device: whether it is complete, and whether a newer one waits. A page sets `busy` while
 * somebody is at a ballot; nothing is offered then, because an update reloads the page and its ink is gone.
 */
class Update {
	busy = $state(false);
	/** Whether every file is on this device, so that the app works with no network. */
	ready = $state(false);
	#take = $state.raw<(() => Promise<void>) | undefined>();

	/** Whether a new version waits and now is a good time to say so. */
	get offered(): boolean {
		return !this.busy && this.#take !== undefined;
	}

	/** Registers the service worker. Call once, in the browser. */
	async start(): Promise<void> {
		if (!('serviceWorker' in navigator)) return;
		const { registerSW } = await import('virtual:pwa-register');
		const update = registerSW({
			immediate: true,
			onOfflineReady: () => (this.ready = true),
			onNeedRefresh: () => (this.#take = () => update(true))
		});
		await navigator.serviceWorker.ready;
		this.ready = true;
	}

	/** Takes the new version: the page reloads. Only at the user's word. */
	async take(): Promise<void> {
		await this.#take?.();
	}
}

export const update = new Update();
