// What a move does: the verdict, what came and what went, and the figures for the whole booth.
import {byId, make} from '../../handout/page/scripts/dom.js';
import {gravity, percent} from './words.js';
/** @import {Desk} from './desk.js' */

/** @param {Desk} desk */
export function makeTold(desk) {
	/** @param {string} text @param {boolean} [head] */
	const cell = (text, head) => (head ? make('th', {textContent: text, scope: 'row'}) : make('td', {textContent: text}));
	/** @param {string} is @param {string} was */
	const other = (is, was) => (was && was !== is ? was : '');
	/** @type {(state: Go.State) => (f: Go.Found) => HTMLElement} */
	const found = (state) => (f) => {
		const item = make('li', {className: f.level + (f.new ? ' new' : '')});
		const knows = state.works.some((w) => w.id === f.item) || state.ground.things.some((t) => t.id === f.item && (t.moves || t.goes));
		item.append(make('p', {}, make('b', {textContent: gravity[f.level] + (f.new ? ', new' : '')}), f.text));
		const acts = make('p', {className: 'acts'});
		if (knows) acts.append(make('button', {type: 'button', textContent: 'Its label', onclick: () => desk.choose(f.item, true)}));
		if (f.view || knows) acts.append(make('button', {type: 'button', textContent: 'Look', onclick: () => desk.walk.show(f.view, f.item)}));
		if (acts.childNodes.length) item.append(acts);
		return item;
	};
	return {
		/** @param {Go.State} state */
		show(state) {
			byId('line').textContent = state.line;
			byId('line').className = `line ${state.verdict}`;
			byId('sums').tBodies[0].replaceChildren(...state.sums.map((s) => make('tr', {}, cell(s.what, true), cell(s.is), cell(other(s.is, s.was)))));
			byId('mended').replaceChildren(...(state.mended.length ? [make('h3', {textContent: 'Mended by the last change'}), make('ul', {className: 'gone'}, ...state.mended.map((f) => make('li', {textContent: f.text})))] : []));
			byId('found').replaceChildren(...(state.findings.length ? state.findings.map(found(state)) : [make('li', {textContent: 'Nothing.'})]));
			byId('seen').tBodies[0].replaceChildren(...state.works.filter((w) => w.seen >= 0).map((w) => make('tr', {}, cell(w.title, true), cell(percent(w.seen)), cell(other(percent(w.seen), percent(w.was))))));
			byId('history').replaceChildren(...state.history.map((h) => {
				const b = make('button', {type: 'button', textContent: h.words, disabled: h.here, onclick: () => desk.say({do: 'go', place: h.number})});
				if (h.here) b.setAttribute('aria-current', 'step');
				return make('li', {}, b);
			}));
		},
	};
}
