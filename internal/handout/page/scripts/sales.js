// Sales: one tap marks the work that hangs in a place as sold, and says which spare hangs there next. A spare takes one place
// only; what sold where is kept on the device.
import {all, byId, one} from './dom.js';
import {facts} from './facts.js';
import {store} from './ticks.js';

// spare is the best that could take a place and takes none yet, by what has been sold where.
/** @type {(place: Go.Sale, sold: {[place: string]: string[]}) => Go.Heir | undefined} */
export function spare(place, sold) {
	const taken = new Set(Object.values(sold).flat());
	return place.heirs.find((h) => !taken.has(h.id));
}

export function startSales() {
	const rows = all('[data-place]');
	if (!rows.length) return;
	const places = new Map(facts.places.map((p) => [p.id, p]));
	/** @param {HTMLElement} row */
	const placeOf = (row) => /** @type {Go.Sale} */ (places.get(row.dataset.place || ''));
	const kept = Object.assign({}, store.get('sold')); // by place: what took it after each sale, an empty text if nothing did
	const show = () => {
		let count = 0;
		for (const row of rows) {
			const place = placeOf(row);
			const after = kept[place.id] || [];
			count += after.length;
			const heirs = after.map((id) => place.heirs.find((h) => h.id === id));
			const hung = [place.title, ...heirs.map((h) => (h ? h.title : ''))];
			const now = hung[after.length], how = after.length ? heirs[after.length - 1]?.how : '';
			const [title, sold, next, button, undo] = ['.now', '.gone', '.next', '.sell', '.undo'].map((c) => one(c, row));
			title.textContent = now || 'Nothing hangs here';
			sold.textContent = after.length ? 'Sold: ' + hung.slice(0, after.length).join(', ') + '.' : '';
			if (after.length) sold.textContent += now ? ` Hang ${now} here: ${how}.` : ' No spare is left that fits here.';
			const heir = spare(place, kept);
			next.textContent = !now ? '' : heir ? `If this sells, hang ${heir.title}: ${heir.how}.` : 'If this sells, no spare fits here.';
			button.hidden = !now;
			button.setAttribute('aria-label', 'Sold: ' + title.textContent);
			undo.hidden = !after.length;
		}
		byId('sold-count').textContent = `${count} sold.`;
	};
	/** @param {string} id @param {string[]} after */
	const change = (id, after) => {
		kept[id] = after;
		store.set('sold', kept);
		show();
	};
	for (const row of rows) {
		const place = placeOf(row), {id} = place;
		one('.sell', row).addEventListener('click', () => {
			const heir = spare(place, kept);
			change(id, [...(kept[id] || []), heir ? heir.id : '']);
		});
		one('.undo', row).addEventListener('click', () => {
			change(id, kept[id].slice(0, -1));
			one('.sell', row).focus();
		});
	}
	show();
}

