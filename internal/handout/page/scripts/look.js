// The walk: where the visitor is, what they see, and what is told about it. startWalk gives what changes it later: next shows
// another booth to a visitor who stays where they are, carry shows a thing where it is not yet. fetched gives pictures by their addresses.
import {axes, halves, lookAt, rayThrough, steepest} from './camera.js';
import {all, byId, calm, make, one} from './dom.js';
import {makeStage} from './draw.js';
import {readModel} from './model.js';
import {firstMet, owner} from './pick.js';
import {before, middle, ribbon} from './shapes.js';
import {steer} from './steer.js';
import {walkBy} from './walk.js';
import {capital} from './words.js';
/** @import {Mark, Shape, Stage} from './draw.js' */
/** @import {Fetched, Model, Part} from './model.js' */

/**
 * @typedef {{show(view: string, item: string): void, copy(to: HTMLCanvasElement): void, next(facts: Go.Facts, bytes: Uint8Array<ArrayBuffer>): void,
 *   carry(id: string | null, to?: (x: number, y: number, z: number) => number[]): void}} Walk
 */
/** @type {(facts: Go.Facts, bytes: Uint8Array<ArrayBuffer>, fetched: Fetched) => Walk} */
export function startWalk(facts, bytes, fetched) {
	const canvas = byId('stage');
	const eye = {x: 0, y: 1.5, z: 2, yaw: 0, shift: 0, half: 0.8};
	/** @type {Map<string, Go.ViewFact>} */
	let views;
	/** @type {Map<string, Go.WorkFact>} */
	let works;
	/** @type {Model} */
	let model;
	/** @type {Map<string, Part>} */
	let parts;
	/** @type {Set<string>} */
	let bare;
	const take = () => {
		views = new Map(facts.views.map((v) => [v.name, v]));
		works = new Map(facts.works.map((w) => [w.id, w]));
		model = readModel(bytes, fetched);
		parts = new Map(model.parts.map((p) => [p.id, p]));
		bare = new Set(facts.bare);
	};
	take();
	/** @type {Go.ViewFact | null} */
	let at = facts.views[0]; // the view that the visitor stands at; null once they have walked off
	/** @type {number[] | null} */
	let heading = null; // where they are going after a tap on the ground
	/** @type {Go.WorkFact | null} */
	let chosen = null;
	/** @type {Stage | null} */
	let stage = null;
	/** @type {Shape | null} */
	let way = null;
	/** @type {Shape | null} */
	let faces = null;

	let asked = false, last = 0;
	const ask = () => {
		if (asked || !stage) return;
		asked = true;
		requestAnimationFrame(frame);
	};
	/** @param {Stage} [earlier] */
	const ready = (earlier) => {
		const made = stage = makeStage(canvas, model, facts.behind, ask, earlier);
		way = facts.way.length > 1 ? made.plain(ribbon(facts.way, 0.05, 0.012)) : null;
		faces = made.plain(facts.works.flatMap((w) => w.face.slice(2).flatMap((_, i) => [w.face[0], w.face[i + 1], w.face[i + 2]].map((p) => before(w.face, p)).flat())));
		refresh();
		return made;
	};
	const refresh = () => {
		if (stage) stage.show((part) => !(at && at.bare && owner(part, bare)));
		ask();
	};

	const held = steer(canvas, {
		moving: () => {
			heading = null;
			last = 0;
			step(held, 0.05); // so that the shortest tap moves too
			ask();
		},
		once(move) {
			heading = null;
			step(new Set([move]), 0.25);
			ask();
		},
		dragged(dx, dy) {
			const [wide, high] = halves(eye, canvas.width / canvas.height);
			const box = canvas.getBoundingClientRect();
			eye.yaw -= Math.atan(wide) * 2 * dx / box.width;
			tilt(2 * high * dy / box.height);
			ask();
		},
		tapped(nx, ny) {
			const d = rayThrough(eye, canvas.width / canvas.height, nx, ny);
			const met = firstMet(stage ? stage.surfaces() : [], [eye.x, eye.y, eye.z], d);
			if (!met.part) return;
			const work = works.get(owner(met.part, works) || '');
			if (work) return choose(work);
			if (met.point[1] < 0.06) {
				heading = met.point;
				if (calm()) {
					walkTo(1000);
				}
				last = 0;
				ask();
				return;
			}
			shut();
			say(met.part.extras.name ? capital(met.part.extras.name) + '.' : '');
		},
	});

	/** @param {number} by */
	const tilt = (by) => (eye.shift = Math.max(-steepest, Math.min(steepest, eye.shift + by)));
	const leave = () => {
		if (!at) return;
		const was = at;
		at = null;
		byId('view').value = '';
		tell();
		if (was.bare) refresh();
	};
	// step moves by what is held for some seconds.
	/** @param {Set<string>} moves @param {number} seconds */
	const step = (moves, seconds) => {
		const {ahead, right} = axes(eye);
		let along = 0, aside = 0;
		if (moves.has('left')) eye.yaw -= 1.3 * seconds;
		if (moves.has('right')) eye.yaw += 1.3 * seconds;
		if (moves.has('up')) tilt(0.7 * seconds);
		if (moves.has('down')) tilt(-0.7 * seconds);
		if (moves.has('ahead')) along += 1.2 * seconds;
		if (moves.has('back')) along -= 1.2 * seconds;
		if (moves.has('aside-left')) aside -= 1 * seconds;
		if (moves.has('aside-right')) aside += 1 * seconds;
		if ((along || aside) && walkBy(eye, facts.floor, ahead[0] * along + right[0] * aside, ahead[1] * along + right[1] * aside)) leave();
	};
	/** @param {number} seconds */
	const walkTo = (seconds) => {
		if (!heading) return;
		const dx = heading[0] - eye.x, dz = heading[2] - eye.z, left = Math.hypot(dx, dz);
		const go = Math.min(left, 1.4 * seconds);
		if (left < 0.05 || !walkBy(eye, facts.floor, dx / left * go, dz / left * go)) heading = null;
		else leave();
	};

	/** @param {number} now */
	const frame = (now) => {
		asked = false;
		if (!stage) return;
		const seconds = last ? Math.min(0.1, (now - last) / 1000) : 0.016;
		last = now;
		if (held.size) step(held, seconds);
		if (heading) walkTo(seconds);
		const box = canvas.getBoundingClientRect();
		if (!box.width) return;
		const fine = Math.min(2, devicePixelRatio || 1);
		const w = Math.round(box.width * fine), h = Math.round(box.height * fine);
		if (canvas.width !== w || canvas.height !== h) {
			canvas.width = w;
			canvas.height = h;
		}
		/** @type {Mark[]} */
		const marks = [];
		if (way && byId('show-way').checked) marks.push({shape: way, ink: [0.1, 0.35, 0.75, 0.85]});
		if (faces && byId('show-hidden').checked) marks.push({shape: faces, ink: [0.75, 0.1, 0.1, 0.8], stripe: 10 * fine, behind: true});
		stage.draw(eye, marks);
		canvas.dataset.at = `${eye.x.toFixed(3)} ${eye.z.toFixed(3)} ${eye.yaw.toFixed(3)} ${eye.shift.toFixed(3)}`;
		if (held.size || heading) ask();
	};

	// stand puts the visitor at a view.
	/** @param {string} name */
	const stand = (name) => {
		const v = views.get(name) || facts.views[0];
		at = v;
		heading = null;
		byId('view').value = v.name;
		[eye.x, eye.z] = v.stand;
		height();
		eye.half = v.half;
		lookAt(eye, v.look);
		tell();
		refresh();
	};
	const viewer = () => facts.eyes[Number(byId('eye').value)] || facts.eyes[0];
	const height = () => (eye.y = at && at.height ? at.height : viewer().height);

	/** @param {string} text */
	const say = (text) => (byId('place').textContent = text);
	const tell = () => {
		say(at ? at.doc : 'On your own feet. Choose a place to stand to go back there.');
		if (chosen) seen(chosen);
	};
	/** @param {Go.WorkFact} w */
	const seen = (w) => {
		const who = at && at.height ? 'seated' : viewer().name;
		/** @param {Go.ViewFact} v */
		const text = (v) => w.seen[`${v.name}/${v.height ? 'seated' : who}`];
		if (at) {
			const s = text(at);
			byId('card-seen').textContent = s ? `Seen from here (${at.title.toLowerCase()}): ${s.share}. ${s.why}` : '';
			return;
		}
		const list = facts.views.filter(text).map((v) => `${v.title.toLowerCase()} ${text(v).share}`);
		byId('card-seen').textContent = list.length ? `Seen from the named places: ${list.join(', ')}.` : '';
	};
	// choose tells about a work.
	/** @param {Go.WorkFact} w */
	const choose = (w) => {
		chosen = w;
		byId('card-title').textContent = w.title;
		byId('card-lines').replaceChildren(...w.lines.map((l) => make('p', {textContent: l})));
		byId('card-hang').hidden = !w.hang;
		byId('card-hang').setAttribute('href', '#' + (w.hang || 'hang'));
		byId('card').hidden = false;
		seen(w);
	};
	const shut = () => {
		chosen = null;
		byId('card').hidden = true;
	};
	/** @param {string} id */
	const turnTo = (id) => {
		const w = works.get(id);
		const part = parts.get(id);
		if (w) lookAt(eye, [0, 1, 2].map((k) => w.face.reduce((s, c) => s + c[k], 0) / w.face.length));
		else if (part) lookAt(eye, middle(part));
		ask();
	};

	byId('card-shut').addEventListener('click', () => {
		shut();
		canvas.focus({preventScroll: true});
	});
	byId('view').addEventListener('change', () => stand(byId('view').value));
	byId('eye').addEventListener('change', () => {
		height();
		if (at) stand(at.name);
		else {
			tell();
			ask();
		}
	});
	const showWay = byId('show-way'); // not there without a way
	if (showWay) showWay.addEventListener('change', () => {
		if (byId('way-words')) byId('way-words').hidden = !showWay.checked;
		ask();
	});
	byId('show-hidden').addEventListener('change', ask);
	const listWorks = () => byId('all-works').replaceChildren(...facts.works.map((w) => {
		const button = make('button', {type: 'button', textContent: w.title, onclick: () => {
			turnTo(w.id);
			choose(w);
		}});
		return make('li', {}, button);
	}));
	listWorks();
	// show stands at a view and turns to a thing, if there is one.
	/** @param {string} view @param {string} item */
	const show = (view, item) => {
		stand(view);
		shut();
		if (!item) return;
		turnTo(item);
		const w = works.get(item);
		if (w) choose(w);
	};
	for (const link of all('.showme, .walkto')) {
		link.addEventListener('click', () => {
			show(link.dataset.view || '', link.dataset.item || '');
			if (link.dataset.way && showWay) {
				showWay.checked = true;
				showWay.dispatchEvent(new Event('change'));
			}
		});
	}
	canvas.addEventListener('webglcontextlost', (e) => {
		e.preventDefault();
		stage = null;
	});
	canvas.addEventListener('webglcontextrestored', () => ready());
	new ResizeObserver(ask).observe(canvas);

	const first = ready();
	byId('view').selectedIndex = 0;
	byId('eye').selectedIndex = 0;
	stand(facts.views[0].name);
	if (innerWidth < 700) /** @type {HTMLDetailsElement} */ (one('#walk .all')).open = false;
	first.ready.then(() => (canvas.dataset.ready = 'yes'), () => (canvas.dataset.ready = 'without pictures'));

	return {
		show,
		// copy draws what is seen into another canvas, of the same size.
		copy(to) {
			if (!stage) return;
			frame(performance.now());
			[to.width, to.height] = [canvas.width, canvas.height];
			/** @type {CanvasRenderingContext2D} */ (to.getContext('2d')).drawImage(canvas, 0, 0);
		},
		next(otherFacts, otherBytes) {
			[facts, bytes] = [otherFacts, otherBytes];
			take();
			if (stage) ready(stage);
			if (at) at = views.get(at.name) || null;
			const select = byId('view');
			select.replaceChildren(...facts.views.map((v) => new Option(v.title, v.name)));
			select.value = at ? at.name : '';
			listWorks();
			const still = chosen && works.get(chosen.id);
			if (still) choose(still);
			else if (chosen) shut();
			if (at && at.height) height();
		},
		carry(id, to = (x, y, z) => [x, y, z]) {
			if (!stage) return;
			stage.move((part) => id !== null && owner(part, new Set([id])) !== null, to);
			ask();
		},
	};
}


