/**
 * The app's own copy on this device: whether it is complete, and whether a newer one waits. A page sets `busy` while
 * somebody is at a ballot; nothing is offered then, because an update reloads the page and its ink is gone.
 */
class Update {
	busy = $state(false);
	/** Whether every file is on this device, so that the app works with no network. */
	ready = $state(false);
	#take = $state.raw<(() => Promise<void>) | undefined>();
	/** Whether a newer version answers for the app now, taken in another tab, while this page runs the one before. */
	#isOld = $state(false);
	#isTaking = false;

	/** Whether a new version waits and now is a good time to say so. */
	get offered(): boolean {
		return !this.busy && (this.#isOld || this.#take !== undefined);
	}

	/** Registers the service worker. Call once, in the browser. */
	async start(): Promise<void> {
		if (!('serviceWorker' in navigator)) return;
		const container = navigator.serviceWorker;
		// The first copy takes the page over too, and is the version that the page came from.
		let isFirst = container.controller === null;
		container.addEventListener('controllerchange', () => {
			if (!isFirst) this.#taken();
			isFirst = false;
		});
		const { registerSW } = await import('virtual:pwa-register');
		const update = registerSW({
			immediate: true,
			onOfflineReady: () => (this.ready = true),
			onNeedRefresh: () => (this.#take = () => update(true)),
			// Left out, every tab would reload when one takes the new version, whatever ink is in it.
			onNeedReload: () => undefined
		});
		await container.ready;
		this.ready = true;
	}

	/** Takes the new version: the page reloads. Only at the user's word. */
	async take(): Promise<void> {
		this.#isTaking = true;
		if (this.#isOld) location.reload();
		else await this.#take?.();
	}

	/** Call when another screen has come: the voter lost nothing by a reload now, so an old page becomes the new one. */
	catchUp(): void {
		if (this.#isOld && !this.busy) location.reload();
	}

	/** A version was taken, in this tab or in another: all of them get it, only the one that asked for it reloads. */
	#taken(): void {
		if (this.#isTaking) location.reload();
		else this.#isOld = true;
	}
}

export const update = new Update();
