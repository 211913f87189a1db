// Variants of the booth, and two booths side by side.
import {all, byId, calm, make} from '../../handout/page/scripts/dom.js';
import {capital} from '../../handout/page/scripts/words.js';
import {blank, fill} from './ask.js';
/** @import {Desk} from './desk.js' */

/** @param {Desk} desk */
export function makeVariants(desk) {
	const box = byId('beside'), view = byId('beside-view');
	/** @type {Go.Beside | null} */
	let pair = null;
	/** @type {HTMLElement | null} */
	let back = null; // where the person was before
	/** @param {string} words @param {() => void} act @param {boolean} [main] */
	const button = (words, act, main) => make('button', {type: 'button', textContent: words, onclick: act, className: main ? 'main' : ''});
	const shut = () => {
		box.hidden = true;
		pair = null;
		if (back && back.isConnected) back.focus();
	};
	const draw = () => {
		const b = pair;
		if (b) [byId('beside-0'), byId('beside-1')].forEach((image, which) => {
			desk.channel.side(b.number, which, view.value).then((address) => (image.src = address));
			image.alt = `${b.names[which]}, from ${view.selectedOptions[0].textContent}`;
			/** @type {Element} */ (image.nextElementSibling).textContent = `${b.names[which]}: ${b.lines[which]}`;
		});
	};
	view.addEventListener('change', draw);
	/** @param {string} words @param {string[]} found */
	const list = (words, found) => (found.length ? [make('h3', {textContent: words}), make('ul', {}, ...found.map((f) => make('li', {textContent: f})))] : []);

	// show puts the answer to an ask beside the booth, with what can be done about it.
	/** @param {Go.Beside} b @param {HTMLElement[]} hands */
	const show = (b, hands) => {
		pair = b;
		back = /** @type {HTMLElement | null} */ (document.activeElement);
		byId('beside-title').textContent = `${b.names[0]}, and ${b.names[1].toLowerCase()}`;
		view.replaceChildren(...b.views.map((v) => make('option', {value: v.name, textContent: v.title})));
		byId('beside-hands').replaceChildren(...hands, hands.length > 1 ? '' : button('Shut', shut));
		const table = byId('beside-totals'), heads = /** @type {HTMLTableSectionElement} */ (table.tHead).rows[0].cells;
		[heads[1].textContent, heads[2].textContent] = b.names;
		table.tBodies[0].replaceChildren(...b.totals.map((t) => {
			const head = make('th', {textContent: t.what, scope: 'row'});
			return make('tr', {className: t.are[0] === t.are[1] ? 'same' : ''}, head, ...t.are.map((a) => make('td', {textContent: a})));
		}));
		byId('beside-found').replaceChildren(...list('Found only in the first', b.gone.map((f) => f.text)), ...list('Found only in the second', b.new.map((f) => f.text)), ...list('What differs', b.things));
		box.hidden = false;
		draw();
		box.focus({preventScroll: true});
		box.scrollIntoView({block: 'start', behavior: calm() ? 'auto' : 'smooth'});
	};
	/** @param {Go.Variant} v */
	const beside = async (v) => {
		const a = await desk.say({do: 'beside', name: v.file});
		if (a && a.beside) show(a.beside, [button(`Go on with ${v.name}`, () => goOn(v))]);
	};
	/** @param {Go.Variant} v */
	const goOn = async (v) => {
		const a = await desk.say({do: 'open', name: v.file});
		if (a && !a.refused) shut();
	};
	/** @param {number} place */
	const besideWay = async (place) => {
		const a = await desk.say({do: 'beside', place});
		if (a && a.beside) show(a.beside, [button('Take it', () => take(place), true), button('Leave it', shut)]);
	};
	/** @param {number} place */
	const take = async (place) => {
		const a = await desk.say({do: 'take', place});
		if (a && !a.refused) shut();
	};
	byId('propose').addEventListener('click', () => desk.say({do: 'propose'}));
	byId('keep').addEventListener('click', async () => {
		if (!desk.state.file && !await desk.save()) return;
		await fill(desk, 'keep', 'Keep this one, try another', 'The booth as it is now is kept in a scene file of its own beside this one, and you go on here.', 'Keep it', [blank('Name of what is kept', '')], (name) => ({do: 'keep', name}));
	});
	return {
		/** @param {Go.State} state */
		show(state) {
			if (pair && !box.hidden && box.dataset.file !== state.file) shut();
			box.dataset.file = state.file;
			byId('variants').replaceChildren(...state.variants.map((v) => make('li', {}, make('span', {textContent: `${v.name}${v.here ? ', shown here' : ''}`}),
				v.here ? null : button('Side by side', () => beside(v)), v.here ? null : button('Go on with it', () => goOn(v)))));
			const p = state.proposals;
			byId('propose').disabled = p.seeking;
			byId('proposed').textContent = p.seeking ? 'Better ways to hang the works are being sought.' : p.none || (p.ways.length ? 'Proposed, for your rows as they are:' : '');
			byId('ways').replaceChildren(...p.ways.map((w, n) => make('li', {}, make('span', {textContent: `${capital(w.name)}: ${w.doc}`}), button('Side by side', () => besideWay(n)), button('Take it', () => take(n)))));
			for (const b of all('#variants button, #ways button')) b.setAttribute('aria-label', `${b.textContent}: ${b.parentElement?.firstChild?.textContent}`);
		},
	};
}
