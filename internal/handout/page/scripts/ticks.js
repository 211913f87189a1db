// What the helper ticked and measured, kept on the device under a name that belongs to this booth alone.
import {all, byId} from './dom.js';
import {facts} from './facts.js';

/**
 * @typedef {{begun: number, now: string, since: number, early: string, took: {[step: string]: number}, done: {[step: string]: number}}} Run
 * begun and since are milliseconds of the clock, took milliseconds, done minutes since begun
 * @typedef {{ticks: {[name: string]: 1}, runs?: {[which: string]: Run}, which?: string, who?: string, sold?: {[place: string]: string[]}, awake?: boolean}} Kept
 */

export const store = (() => {
	const name = 'boothmock ' + facts.key;
	/** @type {Kept} */
	let kept = {ticks: {}};
	let works = true;
	try {
		const text = localStorage.getItem(name);
		if (text) kept = Object.assign(kept, JSON.parse(text));
		localStorage.setItem(name, JSON.stringify(kept));
	} catch {
		works = false; // a file on some phones has no store
	}
	return {
		works,
		/** @type {<K extends keyof Kept>(what: K) => Kept[K]} */
		get: (what) => kept[what],
		/** @type {<K extends keyof Kept>(what: K, value: Kept[K]) => void} */
		set(what, value) {
			kept[what] = value;
			try {
				localStorage.setItem(name, JSON.stringify(kept));
			} catch {
				works = false;
			}
		},
	};
})();

function countTicks() {
	/** @type {HTMLInputElement[]} */
	const boxes = all('#lists [data-tick]');
	if (boxes.length) byId('packed').textContent = `${boxes.filter((b) => b.checked).length} of ${boxes.length} ticked.`;
}

/** @param {HTMLInputElement} box @param {boolean} on */
export function setTick(box, on) {
	box.checked = on;
	const ticks = store.get('ticks');
	const name = box.dataset.tick || '';
	if (on) ticks[name] = 1;
	else delete ticks[name];
	store.set('ticks', ticks);
	countTicks();
}

export function startTicks() {
	const ticks = store.get('ticks');
	/** @type {HTMLInputElement[]} */
	const boxes = all('[data-tick]');
	for (const box of boxes) {
		box.checked = Boolean(ticks[box.dataset.tick || '']);
		box.addEventListener('change', () => setTick(box, box.checked));
	}
	countTicks();
	if (!store.works) {
		const line = byId('memory');
		line.textContent = 'This browser keeps nothing for a page opened like this: ticks and times are gone when the page is closed.';
		line.hidden = false;
	}
}

