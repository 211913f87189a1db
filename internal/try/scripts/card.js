// The label of what is chosen: what it is, where it is, its numbers to type, and everything that dragging does, as buttons.
import {all, byId, make} from '../../handout/page/scripts/dom.js';
import {capital} from '../../handout/page/scripts/words.js';
import {picked} from './hold.js';
import {percent} from './words.js';
/** @import {Ask, Desk} from './desk.js' */

/** @param {Desk} desk */
export function makeLabel(desk) {
	const body = byId('label-body');
	/** @param {string} words @param {() => void} act */
	const button = (words, act) => make('button', {type: 'button', textContent: words, onclick: act});
	/** @param {Partial<Ask>} ask @param {Go.Typed} t */
	const number = (ask, t) => {
		const input = make('input', {value: t.text, autocomplete: 'off', spellcheck: false});
		input.dataset.field = t.field;
		const put = () => {
			if (input.value.trim() !== t.text) desk.say({do: 'type', field: t.field, text: input.value, ...ask});
		};
		input.addEventListener('change', put);
		return make('label', {className: 'number'}, make('span', {textContent: t.label}), input);
	};
	/** @param {string} words @param {string[][]} options @param {(value: string) => void} act */
	const choice = (words, options, act) => {
		const select = make('select', {}, make('option', {value: '', textContent: words}), ...options.map(([value, text]) => make('option', {value, textContent: text})));
		select.setAttribute('aria-label', words);
		picked(select, act);
		return select;
	};
	// called is what a field or a button is known by from one label to the next.
	/** @param {HTMLElement} e */
	const called = (e) => e.dataset.field || e.textContent || e.getAttribute('aria-label');
	/** @param {string} text */
	const line = (text) => (text ? make('p', {textContent: text}) : null);

	/** @param {Go.State} state @param {Go.Work} w */
	const work = (state, w) => {
		const row = state.rows.find((r) => r.number === w.row);
		const out = [line(w.size), line(capital(w.where) + '.'), line(w.hang ? w.hang + '.' : ''), line(w.under ? `It hangs under ${w.under}.` : ''),
			line(w.seen >= 0 ? `From the entrance ${percent(w.seen)} of it is seen${Math.round(100 * w.was) !== Math.round(100 * w.seen) ? `; before, ${percent(w.was)}` : ''}.` : '')];
		const typed = w.typed.map((t) => number({item: w.id}, t));
		if (typed.length) out.push(make('div', {className: 'numbers'}, ...typed));
		if (row) out.push(make('h3', {textContent: `Its row, number ${w.place + 1} of ${row.works.length} from the left`}), make('div', {className: 'numbers'}, ...row.typed.map((t) => number({item: '', place: row.number}, t))));
		const to = state.walls.flatMap((wall) => {
			const rows = state.rows.filter((r) => r.wall === wall.id && r.number !== w.row);
			const list = rows.map((r) => [`row ${r.number}`, `the row on ${wall.name}`]);
			if (!rows.length && !(row && row.wall === wall.id)) list.push([`new ${wall.id}`, `${wall.name}, beginning a row`]);
			list.push([`hand ${wall.id}`, `${wall.name}, by itself in the middle`]);
			return list;
		});
		/** @param {string} value */
		const hang = (value) => {
			const [how, where] = [value.slice(0, value.indexOf(' ')), value.slice(value.indexOf(' ') + 1)];
			if (how === 'row') {
				const r = state.rows[Number(where)];
				return desk.say({do: 'hang', item: w.id, with: r.wall, row: r.number, place: r.works.length});
			}
			const wall = state.walls.find((k) => k.id === where);
			return wall && desk.say({do: 'hang', item: w.id, with: where, row: how === 'new' ? state.rows.length : null, x: (wall.wide - w.wide) / 2, y: state.hanging});
		};
		out.push(make('p', {className: 'acts'}, choice('Hang it on…', to, hang),
			choice('Change places with…', state.works.filter((k) => k.id !== w.id).map((k) => [k.id, k.title]), (id) => desk.say({do: 'swap', item: w.id, with: id})),
			...(w.wall && !w.under ? [['centre', w.row >= 0 ? 'Centre its row' : 'Centre it'], ['even', 'Space evenly'], ['align', 'All here at its height']].map(([field, words]) => button(words, () => desk.say({do: 'tidy', item: w.id, field}))) : []),
			w.row >= 0 ? button('Out of its row, here', () => desk.say({do: 'hang', item: w.id, with: w.wall, row: null, x: w.left, y: w.centre})) : null,
			w.waits ? null : button('Let it wait', () => desk.say({do: 'hang', item: w.id, with: ''})),
			w.wall || w.on ? button('Look at it', () => desk.walk.show('', w.id)) : null, takeOut(w.id)));
		return out;
	};
	/** @param {string} id */
	const takeOut = (id) => button('Take it out', async () => {
		const a = await desk.say({do: 'remove', item: id});
		if (a && !a.refused) desk.choose(null, true);
	});
	/** @param {Go.Thing} t */
	const thing = (t) => [line(capital(t.where) + (t.turn ? `, turned by ${t.turn} degrees.` : '.')),
		make('div', {className: 'numbers'}, ...t.typed.filter((k) => k.text || k.field === 'turn').map((k) => number({item: t.id}, k))),
		make('p', {className: 'acts'}, t.moves ? button('Turn to the left', () => desk.say({do: 'nudge', item: t.id, turn: 15})) : null,
			t.moves ? button('Centre it', () => desk.say({do: 'tidy', item: t.id, field: 'centre'})) : null,
			t.moves ? button('Turn to the right', () => desk.say({do: 'nudge', item: t.id, turn: -15})) : null,
			button('Look at it', () => desk.walk.show('', t.id)), t.goes ? takeOut(t.id) : null)];

	return {
		/** @param {Go.State} state @param {string | null} id */
		show(state, id) {
			const w = state.works.find((k) => k.id === id), t = state.ground.things.find((k) => k.id === id && (k.moves || k.goes));
			byId('label').hidden = !w && !t;
			const at = /** @type {HTMLElement | null} */ (document.activeElement);
			const focused = at && body.contains(at) ? called(at) : null;
			byId('label-title').textContent = w ? w.title : t ? capital(t.name) : '';
			body.replaceChildren(...(w ? work(state, w) : t ? thing(t) : []).filter((e) => e !== null), make('p', {}, button('Close', () => desk.choose(null, true))));
			if (focused === null) return;
			const again = all('input, button, select', body).find((e) => called(e) === focused);
			if (again) again.focus({preventScroll: true});
		},
		focus() {
			const first = all('input, select, button', body)[0];
			if (first) first.focus();
		},
	};
}
