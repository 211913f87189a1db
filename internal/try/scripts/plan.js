// The plan on paper: the pitch from above, its front edge below, visitors coming from below.
import {byId} from '../../handout/page/scripts/dom.js';
import {capital} from '../../handout/page/scripts/words.js';
import {arrows, catches, holdable} from './hold.js';
import {placeNames} from './names.js';
import {focusIn, idIn, mark} from './svg.js';
import {lengthWords} from './words.js';
/** @import {Ask, Desk} from './desk.js' */
/** @import {Hands} from './hold.js' */
/** @import {Name} from './names.js' */

/**
 * @typedef {{x0: number, x1: number, z0: number, z1: number}} Bounds
 * @typedef {{x: number, z: number, atX: number | null, atZ: number | null}} Caught how far a thing is moved, and the lines that it catches on
 */

/** @param {Desk} desk */
export function makePlan(desk) {
	const svg = byId('ground');
	const page = /** @type {HTMLElement} */ (svg.parentElement);
	let way = mark('g', {}), scale = 60, left = 0, back = 0, busy = false;
	/** @type {Go.State} */
	let state;

	/** @param {number} x @param {number} z */
	const at = (x, z) => [left + x * scale, back + z * scale];
	/** @param {[number, number][]} outline */
	const path = (outline) => outline.map(([x, z], i) => `${i ? 'L' : 'M'}${at(x, z).map((v) => v.toFixed(1)).join(' ')}`).join('') + 'Z';
	const layout = () => {
		const g = state.ground, width = Math.max(280, page.clientWidth), side = 0.4;
		const aisle = Math.min(g.aisle, Math.max(1.3, ...g.things.filter((t) => t.moves).map((t) => boundsOf(t).z1 + 0.4)));
		scale = Math.min(150, width / (g.wide + 2 * side));
		left = width / 2;
		back = (g.deep + 0.35) * scale;
		const high = back + aisle * scale;
		svg.setAttribute('viewBox', `0 0 ${width} ${high}`);
		svg.setAttribute('width', String(width));
		svg.setAttribute('height', String(high));
		return [width, high];
	};
	/** @type {(t: Go.Thing) => Bounds} */
	const boundsOf = (t) => {
		const points = t.outline.flat();
		return {x0: Math.min(...points.map((p) => p[0])), x1: Math.max(...points.map((p) => p[0])), z0: Math.min(...points.map((p) => p[1])), z1: Math.max(...points.map((p) => p[1]))};
	};

	/** @param {Go.Thing} t @param {Map<string, Name>} names */
	const drawThing = (t, names) => {
		const own = t.moves || t.goes; // it has an entry of its own
		const g = mark('g', {class: `thing ${t.kind}${own ? ' own' : ''}${t.moves ? ' moves' : ''}`});
		for (const o of t.outline) g.append(mark('path', {class: 'shape', d: path(o)}));
		if (!own) return g;
		const b = boundsOf(t), [cx, cz] = at((b.x0 + b.x1) / 2, (b.z0 + b.z1) / 2);
		const wide = Math.max(44, (b.x1 - b.x0) * scale), deep = Math.max(44, (b.z1 - b.z0) * scale);
		g.append(mark('rect', {class: 'reach', x: cx - wide / 2, y: cz - deep / 2, width: wide, height: deep}));
		g.setAttribute('tabindex', '0');
		g.setAttribute('role', 'button');
		g.setAttribute('data-id', t.id);
		g.setAttribute('aria-label', `${capital(t.name)}, ${t.where}${t.turn ? `, turned by ${t.turn} degrees` : ''}`);
		const n = names.get(t.id);
		if (n) g.append(mark('text', {class: 'name', 'text-anchor': 'middle'}, ...n.lines.map((l, i) => mark('tspan', {x: n.x, y: n.y + 4 + 13 * (i - (n.lines.length - 1) / 2)}, l))));
		if (desk.chosen === t.id) {
			g.classList.add('chosen');
			if (t.moves) g.append(handle(t, cx, cz, g));
		}
		if (t.moves) holdable(g, hands(t, g));
		else g.addEventListener('click', () => desk.choose(t.id, false));
		arrows(g, (right, up, many) => desk.say({do: 'nudge', item: t.id, x: right * many * state.step, z: -up * many * state.step}), (key) => {
			if (key === 'c') desk.say({do: 'tidy', item: t.id, field: 'centre'});
			else if (key === 'Delete') desk.say({do: 'remove', item: t.id});
			else if (key === 'PageUp' || key === 'PageDown') desk.say({do: 'nudge', item: t.id, turn: key === 'PageUp' ? 15 : -15});
			else if (key === 'Enter' || key === ' ') desk.choose(t.id, true);
			else return false;
			return true;
		});
		return g;
	};
	// handle is a knob on a stalk: whoever drags it round turns the thing, by 15 degrees a catch.
	/** @param {Go.Thing} t @param {number} cx @param {number} cz @param {SVGElement} turned */
	const handle = (t, cx, cz, turned) => {
		const b = boundsOf(t), far = Math.max(b.x1 - b.x0, b.z1 - b.z0) / 2 * scale + 30;
		const knob = mark('g', {class: 'knob'}, mark('path', {d: `M${cx} ${cz}V${cz - far}`}), mark('circle', {cx, cy: cz - far, r: 9}), mark('circle', {class: 'reach', cx, cy: cz - far, r: 22}));
		let turn = 0;
		holdable(knob, {
			taken() {
				busy = true;
			},
			moved(_dx, _dy, px, py) {
				const box = svg.getBoundingClientRect();
				const angle = -(Math.atan2(py - box.top - cz, px - box.left - cx) * 180 / Math.PI + 90);
				turn = Math.round(angle / 15) * 15;
				turned.setAttribute('transform', `rotate(${-turn} ${cx} ${cz})`);
				carry(t, 0, 0, turn);
				hold(t, t.x, t.z, turn);
			},
			left() {
				busy = false;
				desk.walk.carry(null);
				draw();
			},
			dropped() {
				busy = false;
				if (turn % 360) desk.say({do: 'nudge', item: t.id, turn});
				else this.left();
			},
			chosen() {},
		});
		return knob;
	};
	/** @param {Go.Thing} t @param {number} dx @param {number} dz @param {number} turn */
	const carry = (t, dx, dz, turn) => {
		const s = Math.sin(turn * Math.PI / 180), c = Math.cos(turn * Math.PI / 180);
		desk.walk.carry(t.id, (x, y, z) => {
			const rx = x - t.x, rz = z - t.z;
			return [t.x + dx + c * rx + s * rz, y, t.z + dz - s * rx + c * rz];
		});
	};
	/** @type {(t: Go.Thing, g: SVGElement) => Hands} */
	const hands = (t, g) => {
		/** @type {Caught} */
		let by = {x: 0, z: 0, atX: null, atZ: null};
		const guides = mark('g', {class: 'guides'});
		return {
			taken() {
				busy = true;
				g.classList.add('lifted');
				svg.append(guides);
			},
			moved(dx, dy) {
				by = caught(t, dx / scale, dy / scale);
				g.setAttribute('transform', `translate(${by.x * scale} ${by.z * scale})`);
				const lines = [];
				const [w, h] = [svg.viewBox.baseVal.width, svg.viewBox.baseVal.height];
				if (by.atX !== null) lines.push(mark('path', {class: 'caught', d: `M${at(by.atX, 0)[0]} 0V${h}`}));
				if (by.atZ !== null) lines.push(mark('path', {class: 'caught', d: `M0 ${at(0, by.atZ)[1]}H${w}`}));
				const b = boundsOf(t), [x, z] = at((b.x0 + b.x1) / 2 + by.x, b.z0 + by.z);
				lines.push(mark('text', {class: 'measure', x, y: z - 6, 'text-anchor': 'middle'}, distance(b, by)));
				guides.replaceChildren(...lines);
				carry(t, by.x, by.z, 0);
				hold(t, t.x + by.x, t.z + by.z, 0);
			},
			left() {
				busy = false;
				desk.walk.carry(null);
				draw();
			},
			dropped() {
				busy = false;
				guides.remove();
				desk.drop(t.id, {do: 'stand', item: t.id, x: t.x + by.x, z: t.z + by.z, turn: t.turn});
			},
			chosen: () => desk.choose(t.id, false),
		};
	};
	/** @param {Bounds} b @param {Caught} by */
	const distance = (b, by) => {
		const g = state.ground, x0 = b.x0 + by.x + g.wide / 2, x1 = g.wide / 2 - b.x1 - by.x, front = -(b.z1 + by.z);
		const side = x0 < x1 ? `${lengthWords(x0, state.units)} from the left` : `${lengthWords(x1, state.units)} from the right`;
		return `${side}, ${front >= 0 ? `${lengthWords(front, state.units)} from the front` : `${lengthWords(b.z0 + by.z, state.units)} out in the aisle`}`;
	};
	// caught lets a thing catch on walls, on the edges of the pitch and of other things, and on the middle.
	/** @type {(t: Go.Thing, dx: number, dz: number) => Caught} */
	const caught = (t, dx, dz) => {
		const b = boundsOf(t), g = state.ground;
		const xs = [-g.wide / 2, g.wide / 2], zs = [-g.deep, 0];
		for (const w of state.walls) {
			if (Math.abs(w.along[0]) < 0.01) xs.push(w.origin[0]);
			if (Math.abs(w.along[1]) < 0.01) zs.push(w.origin[1]);
		}
		for (const o of g.things) if (o.moves && o.id !== t.id) {
			const c = boundsOf(o);
			xs.push(c.x0, c.x1);
			zs.push(c.z0, c.z1);
		}
		/** @type {(lo: number, hi: number, by: number, lines: number[], middle: number) => [number, number | null]} */
		const pull = (lo, hi, by, lines, middle) => {
			/** @type {number | null} */
			let best = null;
			/** @type {number | null} */
			let on = null;
			/** @param {number} v @param {number} line */
			const wish = (v, line) => {
				if (Math.abs(v - by) * scale < catches && (best === null || Math.abs(v - by) < Math.abs(best - by))) [best, on] = [v, line];
			};
			for (const l of lines) {
				wish(l - lo, l);
				wish(l - hi, l);
			}
			wish(middle - (lo + hi) / 2, middle);
			return [best === null ? by : best, on];
		};
		const [x, atX] = pull(b.x0, b.x1, dx, xs, 0), [z, atZ] = pull(b.z0, b.z1, dz, zs, -g.deep / 2);
		return {x, z, atX, atZ};
	};

	// drawWay draws the line of the way in, its narrowest place and the largest clear circle that it leads to.
	/** @param {Go.Floor} g */
	const drawWay = (g) => {
		const parts = [];
		if (g.circle) parts.push(mark('circle', {class: 'turning', cx: at(g.circle.x, 0)[0], cy: at(0, g.circle.z)[1], r: g.circle.r * scale}));
		if (g.way.length > 1) parts.push(mark('path', {class: 'way', d: g.way.map(([x, z], i) => `${i ? 'L' : 'M'}${at(x, z).join(' ')}`).join('')}));
		if (g.narrow) {
			const [ax, az] = at(...g.narrow.from), [bx, bz] = at(...g.narrow.to);
			parts.push(mark('path', {class: 'narrow', d: `M${ax} ${az}L${bx} ${bz}`}), mark('text', {class: 'measure', x: (ax + bx) / 2, y: (az + bz) / 2 - 5, 'text-anchor': 'middle'}, g.narrow.words));
		}
		byId('way-line').textContent = g.words + (g.circle ? ` The largest clear circle inside is ${g.circle.words} across.` : '');
		return parts;
	};
	// hold draws the way in as it is while a thing is held somewhere: one question at a time, the last place counts.
	let asked = false;
	/** @type {Ask | null} */
	let wish = null;
	/** @param {Go.Thing} t @param {number} x @param {number} z @param {number} turn */
	const hold = async (t, x, z, turn) => {
		wish = {do: 'hold', item: t.id, x, z, turn};
		if (asked) return;
		asked = true;
		while (wish) {
			/** @type {Ask} */
			const ask = wish;
			wish = null;
			const a = await desk.channel.say(ask).catch(() => null);
			if (!busy) break;
			if (a && a.floor) way.replaceChildren(...drawWay(a.floor));
		}
		asked = false;
		wish = null;
	};
	const draw = () => {
		const focused = idIn(svg);
		const [width, high] = layout(), g = state.ground;
		const [x0, z0] = at(-g.wide / 2, -g.deep), [x1, z1] = at(g.wide / 2, 0);
		/** @type {SVGElement[]} */
		const parts = [mark('rect', {class: 'pitch', x: x0, y: z0, width: x1 - x0, height: z1 - z0}),
			mark('rect', {class: 'aisle', x: 0, y: z1, width, height: high - z1}),
			mark('text', {class: 'soft', x: 8, y: high - 8}, 'the aisle')];
		/** @param {Go.Thing} t */
		const order = (t) => (t.moves ? (t.kind === 'visitors' ? 2 : 1) : t.goes ? 3 : 0);
		const things = [...g.things].sort((a, b) => order(a) - order(b));
		const labelled = things.filter((t) => t.moves || t.goes).sort((a, b) => Number(b.id === desk.chosen) - Number(a.id === desk.chosen)).map((t) => {
			const b = boundsOf(t), [lx, ly] = at(b.x0, b.z0), [hx, hy] = at(b.x1, b.z1);
			return {id: t.id, name: t.name.replace(/^the /, ''), at: {x0: lx, y0: ly, x1: hx, y1: hy}};
		});
		const names = placeNames(labelled, width, high);
		parts.push(...things.map((t) => drawThing(t, names)));
		way = mark('g', {class: 'floor-way'}, ...drawWay(g));
		parts.push(way);
		svg.replaceChildren(...parts);
		focusIn(svg, focused);
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
