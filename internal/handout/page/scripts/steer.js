// Hands on the walk: keys, the buttons under the picture, dragging and tapping. held says what goes on; taps and drags are
// told at once.
import {all} from './dom.js';

/** @type {{[code: string]: string}} */
const keys = {
	ArrowUp: 'ahead', KeyW: 'ahead', ArrowDown: 'back', KeyS: 'back', ArrowLeft: 'left', ArrowRight: 'right',
	KeyA: 'aside-left', KeyD: 'aside-right', PageUp: 'up', PageDown: 'down',
};

/**
 * @param {HTMLCanvasElement} canvas
 * @param {{moving(): void, once(move: string): void, dragged(dx: number, dy: number): void, tapped(nx: number, ny: number): void}} told
 */
export function steer(canvas, told) {
	/** @type {Set<string>} */
	const held = new Set();
	/** @param {string} move */
	const start = (move) => {
		if (held.has(move)) return; // a key that is held down repeats itself
		held.add(move);
		told.moving();
	};
	canvas.addEventListener('keydown', (e) => {
		const move = keys[e.code];
		if (!move || e.ctrlKey || e.metaKey || e.altKey) return;
		e.preventDefault();
		start(move);
	});
	canvas.addEventListener('keyup', (e) => held.delete(keys[e.code]));
	for (const away of ['blur', 'pagehide']) window.addEventListener(away, () => held.clear());
	canvas.addEventListener('blur', () => held.clear());

	for (const button of all('[data-move]')) {
		const move = button.dataset.move || '';
		button.addEventListener('pointerdown', (e) => {
			button.setPointerCapture(e.pointerId);
			start(move);
		});
		for (const end of ['pointerup', 'pointercancel', 'lostpointercapture']) button.addEventListener(end, () => held.delete(move));
		button.addEventListener('click', (e) => {
			if (e.detail === 0) told.once(move); // by key or by a screen reader
		});
		button.addEventListener('contextmenu', (e) => e.preventDefault());
	}

	/** @type {{x: number, y: number, far: number} | null} */
	let finger = null;
	canvas.addEventListener('pointerdown', (e) => {
		if (!e.isPrimary || e.button) return;
		finger = {x: e.clientX, y: e.clientY, far: 0};
		canvas.setPointerCapture(e.pointerId);
	});
	canvas.addEventListener('pointermove', (e) => {
		if (!finger || !e.isPrimary) return;
		const dx = e.clientX - finger.x, dy = e.clientY - finger.y;
		finger.far += Math.hypot(dx, dy);
		finger.x = e.clientX;
		finger.y = e.clientY;
		if (finger.far > 6) told.dragged(dx, dy);
	});
	canvas.addEventListener('pointerup', (e) => {
		if (finger && finger.far <= 6) {
			const box = canvas.getBoundingClientRect();
			told.tapped((e.clientX - box.left) / box.width * 2 - 1, 1 - (e.clientY - box.top) / box.height * 2);
		}
		finger = null;
	});
	canvas.addEventListener('pointercancel', () => (finger = null));
	return held;
}

