// Setting up: one turn after another for the person who holds the phone: a step, or a wait for others. It goes on by ticks;
// the clock only says when things should be done. What each step really took is kept.
import {all, byId, make, one} from './dom.js';
import {showMinutes, startMinutes} from './minutes.js';
import {awaited, early, forecast, nextOf} from './plan.js';
import {setTick, store} from './ticks.js';
import {wake} from './wake.js';
/** @import {Step} from './plan.js' */
/** @import {Run} from './ticks.js' */

/** @typedef {Step & {li: HTMLElement, id: string, name: string, box: HTMLInputElement}} Shown a step as the page shows it */

/** @typedef {{which: string, title: string, length: number, time: number, steps: Shown[], run: Run}} List length and time are minutes: planned, and there are */

/** @returns {Run} */
const fresh = () => ({begun: 0, now: '', early: '', since: 0, took: {}, done: {}});

/** @type {(li: HTMLElement) => Shown} */
const shown = (li) => ({
	li, id: li.dataset.log || '', number: Number(li.dataset.number), minutes: Number(li.dataset.end) - Number(li.dataset.start),
	name: one('.name-of', li).textContent, after: li.dataset.after ? li.dataset.after.split(' ').map(Number) : [],
	who: (li.dataset.who || '').split('|'), once: Boolean(li.dataset.once), box: one('[data-tick]', li), done: null, open: false,
});

// It gives a function that shows the step of an address.
/** @returns {(id: string) => boolean} */
export function startSetup() {
	if (!byId('runner')) return () => false;
	const runs = store.get('runs') || {};
	/** @type {List[]} */
	const lists = all('#setup .list').map((box) => {
		const which = box.dataset.which || '';
		return {which, title: one('.of-list', box).textContent, length: Number(box.dataset.length), time: Number(box.dataset.time), steps: all('.step', box).map(shown), run: runs[which] = Object.assign(fresh(), runs[which])};
	});
	let {title, length, time, steps, run} = lists[0];
	/** @type {{run: Run, steps: Shown[]} | null} */
	let cleared = null; // what was there before it was started afresh, until the next start
	const keep = () => store.set('runs', runs);
	/** @type {HTMLInputElement[]} */
	const choices = all('#which input');
	// choose takes up one of the lists.
	/** @param {string} which */
	const choose = (which) => {
		const list = lists.find((l) => l.which === which) || lists[0];
		({title, length, time, steps, run} = list);
		cleared = null;
		for (const c of choices) c.checked = c.value === list.which;
		for (const e of all('#setup [data-which]')) e.classList.toggle('away', e.dataset.which !== list.which);
	};
	/** @type {HTMLInputElement[]} */
	const people = all('#who input');
	for (const p of people) if (p.value === store.get('who')) p.checked = true;
	const me = () => (people.find((p) => p.checked) || people[0]).value;
	const gone = () => (Date.now() - run.begun) / 60000; // minutes since the start
	/** @param {number} minutes */
	const clock = (minutes) => `${Math.floor(minutes / 60)}:${String(Math.floor(minutes % 60)).padStart(2, '0')}`;
	/** @param {number} minutes */
	const seconds = (minutes) => `${clock(minutes)}:${String(Math.floor(minutes * 60 % 60)).padStart(2, '0')}`;
	/** @param {number} minutes */
	const about = (minutes) => clock(Math.round(minutes));
	/** @param {Shown} s */
	const titled = (s) => `step ${s.number}, ${s.name}`;
	/** @param {Element} node @param {string} text */
	const put = (node, text) => {
		if (node.textContent !== text) node.textContent = text;
	};
	/** @param {string} text @param {() => void} click */
	const button = (text, click) => make('button', {type: 'button', onclick: click}, text);

	// look reads the ticks and says what this person's turn is.
	/** @returns {{step: Shown | undefined, waits: Shown[]}} */
	const look = () => {
		for (const s of steps) {
			s.done = s.box.checked ? run.done[s.id] ?? 0 : null;
			s.open = false;
		}
		const step = (run.early && steps.find((s) => s.id === run.early && s.done === null)) || nextOf(steps, me());
		if (!run.begun || !step) return {step, waits: []};
		const waits = awaited(steps, step, me());
		for (const s of waits) s.open = true;
		if (!waits.length) step.open = true;
		return {step, waits};
	};

	// tick marks a step as done; what it had to wait for is done too, though nobody ticked it here.
	/** @param {Shown} step */
	const tick = (step) => {
		for (const n of step.after) if (!steps[n - 1].box.checked) tick(steps[n - 1]);
		setTick(step.box, true);
		run.done[step.id] ??= gone();
	};
	/** @param {Shown} step */
	const untick = (step) => {
		setTick(step.box, false);
		delete run.done[step.id];
	};

	let ticking = 0;
	const endText = () => {
		const plan = forecast(steps, gone());
		const end = Math.max(...plan.map((p) => p[1]));
		steps.forEach((s, i) => ([s.li.dataset.from, s.li.dataset.to] = plan[i].map((m) => m.toFixed(2))));
		const late = Math.round(end - length), left = Math.round(time - end);
		let text = `done about ${about(end)}, ${late > 0 ? `${late} min later than planned` : late < 0 ? `${-late} min sooner than planned` : 'as planned'}`;
		if (time) text += left < 0 ? `: ${-left} min after the gates open` : `, ${left} min left`;
		return text;
	};
	// clockOn moves what depends on the time alone.
	const clockOn = () => {
		const {step, waits} = look();
		const at = step ? gone() : Math.max(0, ...Object.values(run.done));
		put(byId('clock-now'), seconds(run.begun ? at : 0));
		put(byId('clock-end'), !run.begun ? `planned ${clock(length)}` : step ? endText() : `all of yours is done`);
		for (const p of all('#turn [data-due], #lanes [data-due]')) {
			const s = steps[Number(p.dataset.due) - 1];
			const left = Math.ceil(Number(s.li.dataset.to) - gone());
			put(p, waits.includes(s) && left <= 0 ? 'It should be done by now: look, and tick it.' : left > 0 ? `About ${left} min more, until ${about(Number(s.li.dataset.to))}.` : '');
		}
	};

	// show draws the turn, the lanes, and what can be pressed; speak tells it too.
	/** @param {boolean} speak */
	const show = (speak) => {
		const {step, waits} = look();
		const running = Boolean(run.begun && step);
		const doing = running && !waits.length ? step : null;
		if (doing && run.now !== doing.id) {
			run.now = doing.id;
			run.since = Date.now();
			keep();
		} else if (!doing && run.now) {
			run.now = '';
			keep();
		}
		document.documentElement.classList.toggle('running', running);
		for (const s of steps) {
			s.li.classList.toggle('now', s === doing);
			s.li.classList.remove('shown');
			s.li.classList.toggle('others', !s.who.includes(me()));
		}
		const next = byId('step-next');
		next.textContent = !run.begun ? 'Start' : !step ? 'All done' : 'Done';
		next.hidden = running && !doing;
		next.disabled = Boolean(run.begun) && !step;
		byId('step-back').hidden = !run.begun;
		byId('step-back').disabled = !steps.some((s) => s.done !== null && s.who.includes(me()));
		byId('who').disabled = byId('which').disabled = running;
		byId('adjust').hidden = !running;
		turn(step, waits);
		lanes(step, waits);
		times();
		clockOn();
		wake(running);
		if (speak) {
			window.scrollTo(0, 0);
			const heading = byId('turn').querySelector('h3');
			put(byId('turn-said'), doing ? `Now ${titled(doing)}.` : heading ? heading.textContent || '' : '');
		}
		clearInterval(ticking);
		if (running) ticking = setInterval(clockOn, 1000);
	};
	// turn is what this person does now, above the step itself.
	/** @param {Shown | undefined} step @param {Shown[]} waits */
	const turn = (step, waits) => {
		const box = byId('turn');
		const mine = steps.filter((s) => s.who.includes(me()));
		if (!run.begun) {
			const first = mine[0];
			box.replaceChildren(...(first ? [make('p', {}, `${mine.length} steps are yours. You begin with ${titled(first)}${Number(first.li.dataset.start) ? `, and wait for it until about ${clock(Number(first.li.dataset.start))}` : ''}.`)] : []));
			return;
		}
		if (!step) return box.replaceChildren(make('h3', {}, 'Every step of yours is done.'), make('p', {}, 'Help the others, or rest.'));
		if (!waits.length) return box.replaceChildren(make('p', {className: 'meta'}, `${title}: ${mine.indexOf(step) + 1} of your ${mine.length} steps`));
		/** @type {HTMLElement[]} */
		const parts = [make('h3', {}, `Wait for ${[...new Set(waits.flatMap((s) => s.who))].join(' and ')}`)];
		for (const s of waits) {
			const p = make('p', {className: 'due'});
			p.dataset.due = String(s.number);
			parts.push(make('p', {}, `Until ${titled(s)} is done.`), p, button(`Step ${s.number} is done`, () => {
				tick(s);
				keep();
				show(true);
			}));
		}
		parts.push(make('p', {}, `Then you: ${titled(step)}${step.who.length > 1 ? `, together with ${step.who.filter((w) => w !== me()).join(' and ')}` : ''}.`));
		const wait = Math.max(...waits.map((s) => s.minutes));
		const could = early(steps, me(), Math.max(wait, 1)).filter((s) => s !== step);
		for (const s of could.slice(0, 2)) parts.push(button(`Meanwhile do ${s.number}: ${s.name}`, () => {
			run.early = s.id;
			keep();
			show(true);
		}));
		if (!could.length) parts.push(make('p', {className: 'meta'}, 'Nothing of yours can begin sooner: lend a hand, or read on.'));
		parts.push(make('p', {}, make('a', {className: 'button', href: '#' + step.li.id}, `Read step ${step.number} now`)));
		box.replaceChildren(...parts);
	};
	// lanes are what the others do meanwhile, and what comes next for this person.
	/** @param {Shown | undefined} step @param {Shown[]} waits */
	const lanes = (step, waits) => {
		const out = [];
		for (const p of people.map((i) => i.value)) {
			const list = steps.filter((s) => s.done === null && s.who.includes(p));
			const now = p === me() ? list.filter((s) => s !== step)[0] : list[0];
			if (!now || (p !== me() && waits.includes(now))) continue;
			const row = make('p', {}, make('b', {}, p === me() ? 'Then you' : p), ` ${now.number}. ${now.name} `, make('span', {className: 'meta'}, `from about ${about(Number(now.li.dataset.from || now.li.dataset.start))}`));
			if (p !== me() && run.begun && now !== step) row.append(' ', button(`Step ${now.number} is done`, () => {
				tick(now);
				keep();
				show(false);
			}));
			out.push(row);
		}
		byId('lanes').replaceChildren(...out);
	};
	const times = () => {
		const took = lists.flatMap((l) => l.steps.filter((s) => l.run.took[s.id] !== undefined).map((s) => /** @type {[string, number]} */ ([s.id, l.run.took[s.id] / 60000])));
		byId('times').hidden = took.length === 0 && !run.begun && !cleared;
		byId('times-clear').textContent = cleared ? 'Bring ticks and times back' : 'Start afresh';
		showMinutes(took);
	};

	byId('step-next').addEventListener('click', () => {
		const {step, waits} = look();
		if (!run.begun) {
			Object.assign(run, {begun: Date.now(), now: '', early: ''});
			cleared = null;
		} else if (step && !waits.length) {
			run.took[step.id] = (run.took[step.id] || 0) + Date.now() - run.since;
			tick(step);
			run.early = '';
		}
		keep();
		show(true);
	});
	byId('step-back').addEventListener('click', () => {
		const mine = steps.filter((s) => s.done !== null && s.who.includes(me())).sort((a, b) => Number(a.done) - Number(b.done) || a.number - b.number);
		const last = mine.at(-1);
		if (last) untick(last);
		run.early = '';
		keep();
		show(true);
	});
	for (const s of lists.flatMap((l) => l.steps)) s.box.addEventListener('change', () => {
		if (s.box.checked && run.begun) run.done[s.id] = gone();
		if (!s.box.checked) delete run.done[s.id];
		keep();
		show(false);
	});
	for (const p of people) p.addEventListener('change', () => {
		store.set('who', p.value);
		show(false);
	});
	for (const c of choices) c.addEventListener('change', () => {
		store.set('which', c.value);
		choose(c.value);
		show(false);
	});
	/** @param {number} by milliseconds */
	const wind = (by) => {
		run.begun = Math.min(run.begun + by, Date.now());
		keep();
		show(false);
	};
	byId('clock-less').addEventListener('click', () => wind(60000));
	byId('clock-more').addEventListener('click', () => wind(-60000));
	byId('times-clear').addEventListener('click', () => {
		if (cleared) {
			Object.assign(run, cleared.run);
			for (const s of cleared.steps) setTick(s.box, true);
			cleared = null;
		} else {
			cleared = {run: {...run}, steps: steps.filter((s) => s.box.checked)};
			for (const s of steps) setTick(s.box, false);
			Object.assign(run, fresh());
		}
		keep();
		show(false);
	});
	startMinutes();
	choose(store.get('which') || '');
	show(false);
	// It is shown though it is not the one to do now.
	return (id) => {
		const l = lists.find((k) => k.steps.some((s) => s.li.id === id));
		if (!l) return false;
		choose(l.which);
		show(false);
		const s = /** @type {Shown} */ (steps.find((k) => k.li.id === id));
		s.li.classList.add('shown');
		s.li.scrollIntoView({block: 'start'});
		return true;
	};
}

