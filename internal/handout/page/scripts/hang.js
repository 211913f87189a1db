// Hanging: a tap on a work in the drawing opens its hooks, and the drawing shows their measures.
import {all, one} from './dom.js';

export function startHang() {
	/** @type {HTMLDetailsElement[]} */
	const works = all('details.work');
	/** @param {Element} details */
	const wallOf = (details) => /** @type {HTMLElement} */ (details.closest('.wall'));
	/** @param {string} id */
	const open = (id) => {
		const details = works.find((d) => d.id === id);
		if (!details) return false;
		for (const d of works) d.open = d === details;
		const drawing = one('.elevation', wallOf(details));
		const stays = getComputedStyle(drawing).position === 'sticky';
		details.style.scrollMarginTop = stays ? drawing.getBoundingClientRect().height + 'px' : '';
		(stays ? details : wallOf(details)).scrollIntoView({block: 'start'});
		return true;
	};
	for (const details of works) details.addEventListener('toggle', () => {
		for (const g of all('.measure', wallOf(details))) g.classList.toggle('shown', works.some((d) => d.open && d.id === g.dataset.of));
	});
	return open;
}

