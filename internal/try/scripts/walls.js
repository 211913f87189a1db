// The walls as somebody facing them sees them, to one scale, and below them the floor with what waits.
import {byId} from '../../handout/page/scripts/dom.js';
import {capital} from '../../handout/page/scripts/words.js';
import {caught} from './catch.js';
import {arrows, catches, holdable} from './hold.js';
import {focusIn, idIn, mark} from './svg.js';
import {lengthWords, percent} from './words.js';
/** @import {Desk} from './desk.js' */
/** @import {Hands} from './hold.js' */

/**
 * @typedef {{wall: Go.Wall, x: number, y: number}} Spot where a wall is in the drawing: its left end on the ground
 * @typedef {{do: string, words?: string, with?: string, over?: Go.Work, spot?: Spot, row?: number, place?: number, centre?: number, left?: number,
 *   x?: number, y?: number, line?: number | null, column?: number | null}} Aim what letting go does; line and column are what it catches on, metres
 */

const inset = 12, headroom = 34, footroom = 40; // pixels beside a wall, above and below it

/** @type {{[key: string]: string}} */
const orders = {c: 'centre', e: 'even', a: 'align'}; // keys, for a work that is held by them

/** @param {Desk} desk */
export function makeWalls(desk) {
	const svg = byId('elevation');
	const page = /** @type {HTMLElement} */ (svg.parentElement);
	/** @type {Go.State} */
	let state;
	/** @type {Map<string, Spot>} */
	let spots = new Map();
	/** @type {Map<string, {x: number, y: number, small: number}>} */
	const none = new Map();
	let scale = 100, floor = {y: 0, bottom: 0, places: none}, busy = false;

	// told is what is written below a wall.
	const told = (/** @type {Go.Wall} */ w) => {
		const middles = state.rows.filter((r) => r.wall === w.id).map((r) => r.centre).sort((a, b) => a - b);
		const words = middles.length > 2 ? `${middles.length} rows, middles ${lengthWords(middles[0], state.units)} to ${lengthWords(middles[middles.length - 1], state.units)} up`
			: middles.length ? `middles ${middles.map((m) => lengthWords(m, state.units)).join(' and ')} up` : '';
		return [`${lengthWords(w.wide, state.units)} wide`, words];
	};
	// cell is how wide the place of a wall is: as the wall, or as what is written at it, in pixels.
	const cell = (/** @type {Go.Wall} */ w) => Math.max(w.wide * scale, Math.min(256, w.name.length * 8), ...told(w).map((l) => l.length * 6.4)) + 2 * inset;
	// layout finds a place for every wall: as many side by side as can be seen well.
	const layout = () => {
		const width = Math.max(280, page.clientWidth - (document.documentElement.clientWidth < 600 ? 0 : 2));
		const across = Math.max(1, Math.floor(width / 270)); // walls beside each other, each seen well
		const room = (/** @type {Go.Wall[]} */ line) => line.reduce((sum, w) => sum + cell(w), 0);
		for (scale = 190; scale > 20; scale *= 0.98) if (state.walls.every((_, i) => i % across || room(state.walls.slice(i, i + across)) <= width)) break;
		/** @type {Go.Wall[][]} */
		const lines = [];
		for (const w of state.walls) {
			if (!lines.length || room([...lines[lines.length - 1], w]) > width) lines.push([]);
			lines[lines.length - 1].push(w);
		}
		let top = 0;
		spots = new Map();
		for (const line of lines) {
			const tallest = Math.max(...line.map((w) => Math.max(w.high, ...state.works.filter((k) => k.wall === w.id).map((k) => k.centre + k.high / 2))));
			let left = 0;
			for (const w of line) {
				spots.set(w.id, {wall: w, x: left + inset, y: top + headroom + tallest * scale}); // its left end on the ground
				left += cell(w);
			}
			top += headroom + tallest * scale + footroom;
		}
		const waiting = loose(width, top);
		floor = {y: top + 6, bottom: waiting.bottom, places: waiting.places};
		svg.setAttribute('viewBox', `0 0 ${width} ${waiting.bottom}`);
		svg.setAttribute('width', String(width));
		svg.setAttribute('height', String(waiting.bottom));
		return width;
	};
	// loose finds places on the floor for works that do not hang, one after the other, their feet on a line.
	/** @param {number} width @param {number} top */
	const loose = (width, top) => {
		const list = state.works.filter((w) => !w.wall), small = Math.min(scale, 90);
		const places = new Map(none);
		let x = inset, y = top + 40;
		/** @type {{work: Go.Work, at: {y: number}}[]} */
		let line = [];
		const shut = () => {
			const high = Math.max(44, ...line.map((k) => k.work.high * small));
			for (const k of line) k.at.y = y + high;
			y += high + 40;
			line = [];
		};
		for (const w of list) {
			const wide = Math.max(96, w.wide * small);
			if (x + wide > width && line.length) {
				shut();
				x = inset;
			}
			const at = {x, y: 0, small};
			places.set(w.id, at);
			line.push({work: w, at});
			x += wide + 16;
		}
		if (line.length) shut();
		return {places, bottom: Math.max(y, top + 96)};
	};

	// picture draws a work with its upper left corner at 0, 0.
	/** @param {Go.Work} w @param {number} k */
	const picture = (w, k) => {
		const wide = w.wide * k, high = w.high * k, b = w.border * k;
		return mark('g', {class: 'work-face'},
			mark('rect', {class: w.frame ? 'frame' : 'canvas', width: wide, height: high}),
			w.frame ? mark('rect', {class: 'mat', x: Math.min(2, b / 3), y: Math.min(2, b / 3), width: wide - 2 * Math.min(2, b / 3), height: high - 2 * Math.min(2, b / 3)}) : null,
			w.image ? mark('image', {href: w.image, x: b, y: b, width: wide - 2 * b, height: high - 2 * b, preserveAspectRatio: 'none'}) : null);
	};
	/** @param {Go.Work} w */
	const cornerOf = (w) => {
		const s = spots.get(w.wall);
		if (s) return {x: s.x + w.left * scale, y: s.y - (w.centre + w.high / 2) * scale, k: scale};
		const p = floor.places.get(w.id) || {x: 0, y: 0, small: scale};
		return {x: p.x, y: p.y - w.high * p.small, k: p.small};
	};
	/** @param {Go.Work} w */
	const spoken = (w) => `${w.title}, ${w.size}, ${w.where}${w.row >= 0 ? ', in a row' : ''}${w.seen >= 0 ? `, ${percent(w.seen)} seen from the entrance` : ''}`;

	/** @param {Go.Work} w */
	const drawWork = (w) => {
		const at = cornerOf(w);
		const g = mark('g', {class: 'work', transform: `translate(${at.x} ${at.y})`, tabindex: 0, role: 'button', 'aria-label': spoken(w), 'data-id': w.id});
		g.append(picture(w, at.k));
		for (const h of w.hooks) g.append(mark('path', {class: 'hook', d: `M${(h.x - w.left) * scale - 3} ${(w.centre + w.high / 2 - h.y) * scale}h6m-3 -3v6`}));
		g.append(mark('rect', {class: 'reach', x: Math.min(0, (w.wide * at.k - 44) / 2), y: Math.min(0, (w.high * at.k - 44) / 2), width: Math.max(44, w.wide * at.k), height: Math.max(44, w.high * at.k)}));
		if (!w.wall) g.append(mark('text', {class: 'name', x: 0, y: w.high * at.k + 15}, w.title.length > 16 ? w.title.slice(0, 15) + '…' : w.title));
		if (!w.wall && w.on) g.append(mark('text', {class: 'soft', x: 0, y: w.high * at.k + 29}, w.on));
		if (desk.chosen === w.id) g.classList.add('chosen');
		holdable(g, hands(w, g));
		arrows(g, (right, up, many) => desk.say({do: 'nudge', item: w.id, x: right * many * state.step, y: up * many * state.step}), (key) => {
			if (orders[key]) desk.say({do: 'tidy', item: w.id, field: orders[key]});
			else if (key === 'Delete') desk.say({do: 'hang', item: w.id, with: ''});
			else if (key === 'Enter' || key === ' ') desk.choose(w.id, true);
			else return false;
			return true;
		});
		return g;
	};
	/** @param {Spot} s */
	const drawWall = (s) => {
		const {wall: w, x, y} = s, wide = w.wide * scale, top = y - w.high * scale, step = Math.max(w.spacing * scale, 5);
		const g = mark('g', {class: 'wall'});
		g.append(mark('rect', {class: `face ${w.hold}`, x, y: top, width: wide, height: (w.high - w.low) * scale}));
		if (w.hold === 'mesh' || w.hold === 'chains') {
			let d = '';
			for (let k = step; k < wide; k += step) d += `M${(x + k).toFixed(1)} ${top.toFixed(1)}v${((w.high - w.low) * scale).toFixed(1)}`;
			if (w.hold === 'mesh') for (let k = step; k < (w.high - w.low) * scale; k += step) d += `M${x} ${(top + k).toFixed(1)}h${wide.toFixed(1)}`;
			g.append(mark('path', {class: 'wires', d}));
		}
		g.append(mark('path', {class: 'ground', d: `M${x - inset + 4} ${y}h${wide + 2 * inset - 8}`}));
		g.append(mark('text', {class: 'wall-name', x, y: y - Math.max(w.high, ...state.works.filter((k) => k.wall === w.id).map((k) => k.centre + k.high / 2)) * scale - 10}, capital(w.name)));
		for (const r of state.rows.filter((k) => k.wall === w.id)) g.append(mark('path', {class: 'centre', d: `M${x} ${y - r.centre * scale}h${wide}`}));
		for (const [i, words] of told(w).entries()) g.append(mark('text', {class: 'soft', x, y: y + 15 + 14 * i}, words));
		return g;
	};
	const draw = () => {
		const focused = idIn(svg);
		const width = layout();
		const parts = [...spots.values()].map(drawWall);
		parts.push(mark('rect', {class: 'floor', x: 0, y: floor.y, width, height: floor.bottom - floor.y}));
		parts.push(mark('text', {class: 'wall-name', x: inset, y: floor.y + 22}, floor.places.size ? 'Leaning here: waiting, or standing elsewhere' : 'Nothing waits. Drop a work here to let it wait.'));
		parts.push(...state.works.map(drawWork));
		svg.replaceChildren(...parts);
		focusIn(svg, focused);
	};

	// target says what letting go does, for a work whose upper left corner is at x, y and the finger at the height py, all in the drawing.
	/** @type {(w: Go.Work, x: number, y: number, py: number) => Aim | null} */
	const target = (w, x, y, py) => {
		const cx = x + w.wide * scale / 2, cy = y + w.high * scale / 2;
		if (py > floor.y) return w.waits ? null : {do: 'hang', words: 'waits'};
		const spot = [...spots.values()].findLast((s) => cx > s.x - inset && cx < s.x + s.wall.wide * scale + inset && py < s.y + footroom && py > s.y - s.wall.high * scale - headroom - 40);
		if (!spot) return null;
		const others = state.works.filter((k) => k.wall === spot.wall.id && k.id !== w.id);
		for (const k of others) {
			const kx = spot.x + (k.left + k.wide / 2) * scale, ky = spot.y - k.centre * scale;
			if (Math.abs(cx - kx) < k.wide * scale * 0.3 && Math.abs(cy - ky) < k.high * scale * 0.35) return {do: 'swap', with: k.id, words: `changes places with ${k.title}`, over: k, spot};
		}
		const left = (x - spot.x) / scale, centre = (spot.y - cy) / scale;
		const row = state.rows.find((r) => r.wall === spot.wall.id && Math.abs(r.centre - centre) * scale < 26);
		if (row) {
			const list = row.works.flatMap((id) => state.works.find((k) => k.id === id && !k.under) || []);
			const place = list.filter((k) => k.id !== w.id && spot.x + (k.left + k.wide / 2) * scale < cx).length;
			const own = list.findIndex((k) => k.id === w.id);
			return {do: 'hang', with: spot.wall.id, row: row.number, place: own >= 0 && place >= own ? place + 1 : place, words: 'into the row', spot, centre: row.centre, left, line: row.centre};
		}
		if (!state.rows.some((r) => r.wall === spot.wall.id) && Math.abs(state.hanging - centre) * scale < 26 && !others.length)
			return {do: 'hang', with: spot.wall.id, row: state.rows.length, words: 'begins a row', spot, centre: state.hanging, left, line: state.hanging};
		return {do: 'hang', with: spot.wall.id, ...caught(w, spot.wall, others, state.hanging, left, centre, catches / scale), spot};
	};

	/** @type {(w: Go.Work, g: SVGElement) => Hands} */
	const hands = (w, g) => {
		/** @type {Aim | null} */
		let aim = null;
		let start = {x: 0, y: 0}, offset = {x: 0, y: 0}, ghost = mark('g', {}), guides = mark('g', {});
		return {
			taken(x, y) {
				busy = true;
				const box = svg.getBoundingClientRect(), at = cornerOf(w);
				// What leans small on the floor is held at the scale of the walls.
				const grow = scale / at.k;
				start = {x: at.x, y: at.y};
				offset = {x: (x - box.left - at.x) * (grow - 1), y: (y - box.top - at.y) * (grow - 1)};
				g.classList.add('lifted');
				guides = mark('g', {class: 'guides'});
				ghost = mark('g', {class: 'ghost'}, picture(w, scale));
				svg.append(guides, ghost);
			},
			moved(dx, dy, _px, py) {
				const box = svg.getBoundingClientRect();
				const x = start.x + dx - offset.x, y = start.y + dy - offset.y;
				aim = target(w, x, y, py - box.top);
				let gx = x, gy = y;
				if (aim && aim.spot && aim.do === 'hang') {
					if (aim.row === undefined) gx = aim.spot.x + (aim.x || 0) * scale;
					gy = aim.spot.y - ((aim.row === undefined ? aim.y : aim.centre) || 0) * scale - w.high * scale / 2;
				}
				ghost.setAttribute('transform', `translate(${gx} ${gy})`);
				guides.replaceChildren(...guidesOf(w, aim, gx, gy));
				const from = spots.get(w.wall);
				if (aim && aim.spot && from) desk.walk.carry(w.id, between(from.wall, aim.spot.wall, (gx - aim.spot.x) / scale - w.left, (aim.spot.y - gy) / scale - w.high / 2 - w.centre));
			},
			left() {
				busy = false;
				ghost.remove();
				guides.remove();
				g.classList.remove('lifted');
				desk.walk.carry(null);
			},
			async dropped() {
				const a = aim;
				if (!a) return this.left();
				busy = false; // what is held stays where it was let go until all is drawn with the answer
				guides.remove();
				await desk.drop(w.id, a.do === 'swap' ? {do: 'swap', item: w.id, with: a.with} : {do: 'hang', item: w.id, with: a.with || '', row: a.row === undefined ? null : a.row, place: a.place || 0, x: a.x || 0, y: a.y || 0});
			},
			chosen: () => desk.choose(w.id, false),
		};
	};
	/** @type {(w: Go.Work, a: Aim | null, gx: number, gy: number) => SVGElement[]} */
	const guidesOf = (w, a, gx, gy) => {
		/** @type {SVGElement[]} */
		const out = [];
		if (!a) return out;
		if (a.over) {
			const k = a.over, at = cornerOf(k);
			out.push(mark('rect', {class: 'over', x: at.x - 3, y: at.y - 3, width: k.wide * scale + 6, height: k.high * scale + 6}));
		}
		if (a.spot && a.line !== undefined && a.line !== null) out.push(mark('path', {class: 'caught', d: `M${a.spot.x} ${a.spot.y - a.line * scale}h${a.spot.wall.wide * scale}`}));
		if (a.spot && a.column !== undefined && a.column !== null) out.push(mark('path', {class: 'caught', d: `M${gx} ${a.spot.y - a.spot.wall.high * scale}v${a.spot.wall.high * scale}`}));
		const words = a.words || `${lengthWords(a.x || 0, state.units)} from the left, middle ${lengthWords(a.y || 0, state.units)} up`;
		const half = words.length * 3.6, width = svg.viewBox.baseVal.width; // a letter of the drawing is some 7 pixels wide
		out.push(mark('text', {class: 'measure', x: Math.max(half, Math.min(width - half, gx + w.wide * scale / 2)), y: Math.max(14, gy - 8), 'text-anchor': 'middle'}, words));
		return out;
	};

	new ResizeObserver(() => {
		if (state && !busy) draw();
	}).observe(page);
	return {
		/** @param {Go.State} next */
		show(next) {
			state = next;
			if (!busy) draw();
		},
		/** @param {string} id */
		focus: (id) => focusIn(svg, id),
	};
}

// between takes points on one wall to another: the same place before it, but for some metres to the right and up.
/** @type {(from: Go.Wall, to: Go.Wall, right: number, up: number) => (x: number, y: number, z: number) => number[]} */
function between(from, to, right, up) {
	return (x, y, z) => {
		const dx = x - from.origin[0], dz = z - from.origin[1];
		const along = dx * from.along[0] + dz * from.along[1] + right, out = -dx * from.along[1] + dz * from.along[0];
		return [to.origin[0] + along * to.along[0] - out * to.along[1], y + up, to.origin[1] + along * to.along[1] + out * to.along[0]];
	};
}
