// Holding a thing with finger, pen or mouse. holdable calls taken with the place where it was taken, moved at most once a picture, and let go or
// dropped at the end; a tap that does not move calls chosen.
const still = 5; // pixels that a tap may slip
const ways = new Map([['ArrowLeft', [-1, 0]], ['ArrowRight', [1, 0]], ['ArrowUp', [0, 1]], ['ArrowDown', [0, -1]]]);
export const catches = 9; // pixels within which what is held catches on a line
const edge = 110, quickest = 16; // pixels from the window's upper and lower edge within which what is held scrolls the page, and a frame's scroll at most

// scrolls is how far the page scrolls in a frame for what is held at a height in the window.
/** @param {number} y */
const scrolls = (y) => {
	const up = Math.max(0, edge - y), down = Math.max(0, y - innerHeight + edge);
	return Math.max(-quickest, Math.min(quickest, (down - up) / 4));
};

/**
 * @typedef {{taken(x: number, y: number): void, moved(dx: number, dy: number, x: number, y: number): void, left(): void, dropped(): void, chosen(): void}} Hands
 */
/** @param {SVGElement} element @param {Hands} on */
export function holdable(element, on) {
	/** @type {{id: number, x0: number, y0: number, x: number, y: number, scroll: number, going: boolean} | null} */
	let hand = null;
	let asked = false;
	const tell = () => {
		asked = false;
		if (!hand || !hand.going) return;
		const before = scrollY;
		scrollBy({top: scrolls(hand.y), behavior: 'instant'});
		moved(hand);
		if (scrollY !== before) ask();
	};
	const ask = () => {
		if (!asked) requestAnimationFrame(tell);
		asked = true;
	};
	/** @param {{x0: number, y0: number, x: number, y: number, scroll: number}} h */
	const moved = (h) => on.moved(h.x - h.x0, h.y - h.y0 + scrollY - h.scroll, h.x, h.y);
	const stop = () => {
		hand = null;
		window.removeEventListener('keydown', escape, true);
	};
	/** @param {KeyboardEvent} e */
	const escape = (e) => {
		if (e.key !== 'Escape' || !hand) return;
		e.preventDefault();
		e.stopPropagation();
		const going = hand.going;
		stop();
		if (going) on.left();
	};
	element.addEventListener('pointerdown', (e) => {
		if (!e.isPrimary || e.button || hand) return;
		hand = {id: e.pointerId, x0: e.clientX, y0: e.clientY, x: e.clientX, y: e.clientY, scroll: scrollY, going: false};
		element.setPointerCapture(e.pointerId);
		window.addEventListener('keydown', escape, true);
		e.stopPropagation();
	});
	element.addEventListener('pointermove', (e) => {
		if (!hand || e.pointerId !== hand.id) return;
		[hand.x, hand.y] = [e.clientX, e.clientY];
		if (!hand.going && Math.hypot(hand.x - hand.x0, hand.y - hand.y0) > still) {
			hand.going = true;
			on.taken(hand.x0, hand.y0);
		}
		if (hand.going) ask();
	});
	// Engines that know touch-action for boxes alone, and not for what is drawn, are kept from scrolling here.
	element.addEventListener('touchmove', (e) => {
		if (hand) e.preventDefault();
	}, {passive: false});
	element.addEventListener('pointerup', (e) => {
		if (!hand || e.pointerId !== hand.id) return;
		const h = hand;
		if (h.going) moved(h);
		stop();
		if (h.going) on.dropped();
		else on.chosen();
	});
	element.addEventListener('pointercancel', () => {
		const going = hand && hand.going;
		stop();
		if (going) on.left();
	});
}

// picked calls act with what is chosen from a list. Where keys go through a list that stays shut, a change comes at once with each, and only
// Enter chooses; a list that opens is chosen from later.
/** @param {HTMLSelectElement} list @param {(value: string) => void} act */
export function picked(list, act) {
	let passing = false;
	const choose = () => {
		const value = list.value;
		list.value = '';
		if (value) act(value);
	};
	list.addEventListener('keydown', (e) => {
		if (e.key === 'Enter' && list.value) {
			e.preventDefault();
			choose();
		} else {
			passing = true;
			setTimeout(() => (passing = false));
		}
	});
	list.addEventListener('change', () => {
		if (!passing) choose();
	});
	list.addEventListener('blur', () => (list.value = ''));
}

// arrows calls step with a direction, right and up, for arrow keys: large with the shift key. Other keys go to more.
/** @type {(element: SVGElement, step: (right: number, up: number, many: number) => void, more: (key: string) => boolean) => void} */
export function arrows(element, step, more) {
	element.addEventListener('keydown', (e) => {
		if (e.ctrlKey || e.metaKey || e.altKey) return;
		const way = ways.get(e.key);
		if (way) {
			e.preventDefault();
			step(way[0], way[1], e.shiftKey ? 8 : 1);
		} else if (more(e.key)) e.preventDefault();
	});
}
