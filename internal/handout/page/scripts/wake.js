// The screen stays on while the set-up runs, where the browser can and the helper wants it. It lets go whenever the page is
// hidden, and is asked again.
import {byId} from './dom.js';
import {store} from './ticks.js';

/** @type {WakeLockSentinel | null} */
let lock = null;
let wanted = false;

async function hold() {
	if (!wanted || lock || document.visibilityState !== 'visible' || !byId('awake-on').checked) return;
	try {
		lock = await navigator.wakeLock.request('screen'); // Screen Wake Lock API (W3C)
		lock.addEventListener('release', () => (lock = null));
	} catch {
		byId('awake').hidden = true; // low battery, or not allowed: nothing to choose
	}
}

/** @param {boolean} running */
export function wake(running) {
	const box = byId('awake');
	box.hidden = !running || !('wakeLock' in navigator);
	wanted = running;
	if (running) hold();
	else if (lock) lock.release();
}

export function startWake() {
	if (!byId('awake')) return;
	byId('awake-on').checked = store.get('awake') !== false;
	byId('awake-on').addEventListener('change', () => {
		store.set('awake', byId('awake-on').checked);
		if (byId('awake-on').checked) hold();
		else if (lock) lock.release();
	});
	document.addEventListener('visibilitychange', hold);
}

