// Sales: one tap marks the work that hangs in a place as sold, and says which spare hangs there next. A spare takes one place
// only; what sold where is kept on the device.
import {all, byId} from './dom.js';
import {facts} from './facts.js';
import {store} from './ticks.js';

export function startSales() {
	const rows = all('[data-place]');
	if (!rows.length) return;
	const places = new Map(facts.places.map((p) => [p.id, p]));
	const kept = Object.assign({}, store.get('sold')); // by place: what took it after each sale, an empty text if nothing did
	const spare = (place) => {
		const taken = new Set(Object.values(kept).flat());
		return place.heirs.find((h) => !taken.has(h.id));
	};
	const show = () => {
		let count = 0;
		for (const row of rows) {
			const place = places.get(row.dataset.place);
			const after = kept[place.id] || [];
			count += after.length;
			const hung = [place, ...after.map((id) => place.heirs.find((h) => h.id === id))];
			const now = hung[hung.length - 1];
			const [title, sold, next, button, undo] = ['.now', '.gone', '.next', '.sell', '.undo'].map((c) => row.querySelector(c));
			title.textContent = now ? now.title : 'Nothing hangs here';
			sold.textContent = after.length ? 'Sold: ' + hung.slice(0, after.length).map((w) => w.title).join(', ') + '.' : '';
			if (after.length) sold.textContent += now ? ` Hang ${now.title} here: ${now.how}.` : ' No spare is left that fits here.';
			const heir = spare(place);
			next.textContent = !now ? '' : heir ? `If this sells, hang ${heir.title}: ${heir.how}.` : 'If this sells, no spare fits here.';
			button.hidden = !now;
			button.setAttribute('aria-label', 'Sold: ' + title.textContent);
			undo.hidden = !after.length;
		}
		byId('sold-count').textContent = `${count} sold.`;
	};
	const change = (id, after) => {
		kept[id] = after;
		store.set('sold', kept);
		show();
	};
	for (const row of rows) {
		const id = row.dataset.place;
		row.querySelector('.sell').addEventListener('click', () => {
			const heir = spare(places.get(id));
			change(id, [...(kept[id] || []), heir ? heir.id : '']);
		});
		row.querySelector('.undo').addEventListener('click', () => {
			change(id, kept[id].slice(0, -1));
			row.querySelector('.sell').focus();
		});
	}
	show();
}

