// The walk: where the visitor is, what they see, and what is told about it. startWalk gives what changes it later: next shows
// another booth to a visitor who stays where they are, carry shows a thing where it is not yet. fetched gives pictures by their addresses.
import {axes, halves, lookAt, rayThrough, steepest} from './camera.js';
import {all, byId, calm} from './dom.js';
import {makeStage} from './draw.js';
import {readModel} from './model.js';
import {firstMet, owner} from './pick.js';
import {before, middle, ribbon} from './shapes.js';
import {steer} from './steer.js';
import {walkBy} from './walk.js';
import {capital} from './words.js';

export function startWalk(facts, bytes, fetched) {
	const canvas = byId('stage');
	const eye = {x: 0, y: 1.5, z: 2, yaw: 0, shift: 0, half: 0.8};
	let views, works, model, parts, bare;
	const take = () => {
		views = new Map(facts.views.map((v) => [v.name, v]));
		works = new Map(facts.works.map((w) => [w.id, w]));
		model = readModel(bytes, fetched);
		parts = new Map(model.parts.map((p) => [p.id, p]));
		bare = new Set(facts.bare);
	};
	take();
	let at = facts.views[0]; // the view that the visitor stands at; null once they have walked off
	let heading = null; // where they are going after a tap on the ground
	let chosen = null;
	let stage, way, faces;

	let asked = false, last = 0;
	const ask = () => {
		if (asked || !stage) return;
		asked = true;
		requestAnimationFrame(frame);
	};
	const ready = (earlier) => {
		stage = makeStage(canvas, model, facts.behind, ask, earlier);
		way = facts.way.length > 1 ? stage.plain(ribbon(facts.way, 0.05, 0.012)) : null;
		faces = stage.plain(facts.works.flatMap((w) => w.face.slice(2).flatMap((_, i) => [w.face[0], w.face[i + 1], w.face[i + 2]].map((p) => before(w.face, p)).flat())));
		refresh();
	};
	const refresh = () => {
		stage.show((part) => !(at && at.bare && owner(part, bare)));
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
			const met = firstMet(stage.surfaces(), [eye.x, eye.y, eye.z], d);
			if (!met.part) return;
			const work = owner(met.part, works);
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
	const walkTo = (seconds) => {
		const dx = heading[0] - eye.x, dz = heading[2] - eye.z, left = Math.hypot(dx, dz);
		const go = Math.min(left, 1.4 * seconds);
		if (left < 0.05 || !walkBy(eye, facts.floor, dx / left * go, dz / left * go)) heading = null;
		else leave();
	};

	const frame = (now) => {
		asked = false;
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
		const marks = [];
		if (way && byId('show-way').checked) marks.push({shape: way, ink: [0.1, 0.35, 0.75, 0.85]});
		if (byId('show-hidden').checked) marks.push({shape: faces, ink: [0.75, 0.1, 0.1, 0.8], stripe: 10 * fine, behind: true});
		stage.draw(eye, marks);
		canvas.dataset.at = `${eye.x.toFixed(3)} ${eye.z.toFixed(3)} ${eye.yaw.toFixed(3)} ${eye.shift.toFixed(3)}`;
		if (held.size || heading) ask();
	};

	// stand puts the visitor at a view.
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
	const viewer = () => facts.eyes[byId('eye').value] || facts.eyes[0];
	const height = () => (eye.y = at && at.height ? at.height : viewer().height);

	const say = (text) => (byId('place').textContent = text);
	const tell = () => {
		say(at ? at.doc : 'On your own feet. Choose a place to stand to go back there.');
		if (chosen) seen();
	};
	const seen = () => {
		const who = at && at.height ? 'seated' : viewer().name;
		const text = (name) => works.get(chosen).seen[`${name}/${views.get(name).height ? 'seated' : who}`];
		if (at) {
			const s = text(at.name);
			byId('card-seen').textContent = s ? `Seen from here (${at.title.toLowerCase()}): ${s.share}. ${s.why}` : '';
			return;
		}
		const list = facts.views.filter((v) => text(v.name)).map((v) => `${v.title.toLowerCase()} ${text(v.name).share}`);
		byId('card-seen').textContent = list.length ? `Seen from the named places: ${list.join(', ')}.` : '';
	};
	// choose tells about a work.
	const choose = (id) => {
		const w = works.get(id);
		chosen = id;
		byId('card-title').textContent = w.title;
		byId('card-lines').replaceChildren(...w.lines.map((l) => Object.assign(document.createElement('p'), {textContent: l})));
		byId('card-hang').hidden = !w.hang;
		byId('card-hang').setAttribute('href', '#' + (w.hang || 'hang'));
		byId('card').hidden = false;
		seen();
	};
	const shut = () => {
		chosen = null;
		byId('card').hidden = true;
	};
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
	byId('view').addEventListener('change', (e) => stand(e.target.value));
	byId('eye').addEventListener('change', () => {
		height();
		if (at) stand(at.name);
		else {
			tell();
			ask();
		}
	});
	for (const id of ['show-way', 'show-hidden']) {
		const box = byId(id);
		if (box) box.addEventListener('change', () => {
			if (id === 'show-way' && byId('way-words')) byId('way-words').hidden = !box.checked;
			ask();
		});
	}
	const listWorks = () => byId('all-works').replaceChildren(...facts.works.map((w) => {
		const item = document.createElement('li'), button = document.createElement('button');
		button.type = 'button';
		button.textContent = w.title;
		button.addEventListener('click', () => {
			turnTo(w.id);
			choose(w.id);
		});
		item.append(button);
		return item;
	}));
	listWorks();
	// show stands at a view and turns to a thing, if there is one.
	const show = (view, item) => {
		stand(view);
		shut();
		if (!item) return;
		turnTo(item);
		if (works.has(item)) choose(item);
	};
	for (const link of all('.showme, .walkto')) {
		link.addEventListener('click', () => {
			show(link.dataset.view, link.dataset.item);
			if (link.dataset.way && byId('show-way')) {
				byId('show-way').checked = true;
				byId('show-way').dispatchEvent(new Event('change'));
			}
		});
	}
	canvas.addEventListener('webglcontextlost', (e) => {
		e.preventDefault();
		stage = null;
	});
	canvas.addEventListener('webglcontextrestored', () => ready());
	new ResizeObserver(ask).observe(canvas);

	ready();
	byId('view').selectedIndex = 0;
	byId('eye').selectedIndex = 0;
	stand(facts.views[0].name);
	if (innerWidth < 700) document.querySelector('#walk .all').open = false;
	stage.ready.then(() => (canvas.dataset.ready = 'yes'), () => (canvas.dataset.ready = 'without pictures'));

	return {
		show,
		// copy draws what is seen into another canvas, of the same size.
		copy(to) {
			if (!stage) return;
			frame(performance.now());
			[to.width, to.height] = [canvas.width, canvas.height];
			to.getContext('2d').drawImage(canvas, 0, 0);
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
			if (chosen && !works.has(chosen)) shut();
			else if (chosen) choose(chosen);
			if (at && at.height) height();
		},
		carry(id, to) {
			if (!stage) return;
			const one = new Set([id]);
			stage.move((part) => id !== null && owner(part, one) !== null, to);
			ask();
		},
	};
}


