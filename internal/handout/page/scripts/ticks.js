// What the helper ticked and measured, kept on the device under a name that belongs to this booth alone.
import {all, byId} from './dom.js';
import {facts} from './facts.js';

export const store = (() => {
	const name = 'boothmock ' + facts.key;
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
		get: (what) => kept[what],
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
	const boxes = all('#lists [data-tick]');
	if (boxes.length) byId('packed').textContent = `${boxes.filter((b) => b.checked).length} of ${boxes.length} ticked.`;
}

export function setTick(box, on) {
	box.checked = on;
	const ticks = store.get('ticks');
	if (on) ticks[box.dataset.tick] = 1;
	else delete ticks[box.dataset.tick];
	store.set('ticks', ticks);
	countTicks();
}

export function startTicks() {
	const ticks = store.get('ticks');
	for (const box of all('[data-tick]')) {
		box.checked = Boolean(ticks[box.dataset.tick]);
		box.addEventListener('change', () => setTick(box, box.checked));
	}
	countTicks();
	if (!store.works) {
		const line = byId('memory');
		line.textContent = 'This browser keeps nothing for a page opened like this: ticks and times are gone when the page is closed.';
		line.hidden = false;
	}
}

