// Hanging: a tap on a work in the drawing opens its hooks, and the drawing shows their measures.
import {all, byId} from './dom.js';

export function startHang() {
	const open = (id) => {
		const details = byId(id);
		if (!details || !details.matches('details.work')) return false;
		for (const d of all('details.work')) d.open = d === details;
		const drawing = details.closest('.wall').querySelector('.elevation');
		const stays = getComputedStyle(drawing).position === 'sticky';
		details.style.scrollMarginTop = stays ? drawing.getBoundingClientRect().height + 'px' : '';
		(stays ? details : details.closest('.wall')).scrollIntoView({block: 'start'});
		return true;
	};
	for (const details of all('details.work')) {
		details.addEventListener('toggle', () => {
			const wall = details.closest('.wall');
			for (const g of wall.querySelectorAll('.measure')) g.classList.toggle('shown', byId(g.dataset.of).open);
		});
	}
	return open;
}

