// Variants of the booth, and two booths side by side.
import {all, byId, calm, make} from '../../handout/page/scripts/dom.js';
import {capital} from '../../handout/page/scripts/words.js';
import {blank, fill} from './ask.js';

export function makeVariants(desk) {
	const box = byId('beside'), view = byId('beside-view');
	let pair = null;
	const button = (words, act, main) => make('button', {type: 'button', textContent: words, onclick: act, className: main ? 'main' : ''});
	const shut = () => {
		box.hidden = true;
		pair = null;
		if (box.back && box.back.isConnected) box.back.focus();
	};
	const draw = () => {
		for (const which of [0, 1]) {
			const image = byId(`beside-${which}`);
			desk.channel.side(pair.number, which, view.value).then((address) => (image.src = address));
			image.alt = `${pair.names[which]}, from ${view.selectedOptions[0].textContent}`;
			image.nextElementSibling.textContent = `${pair.names[which]}: ${pair.lines[which]}`;
		}
	};
	view.addEventListener('change', draw);
	const list = (words, found) => (found.length ? [make('h3', {textContent: words}), make('ul', {}, ...found.map((f) => make('li', {textContent: f.text || f})))] : []);

	// show puts the answer to an ask beside the booth, with what can be done about it.
	const show = (b, hands) => {
		pair = b;
		box.back = document.activeElement;
		byId('beside-title').textContent = `${b.names[0]}, and ${b.names[1].toLowerCase()}`;
		view.replaceChildren(...b.views.map((v) => make('option', {value: v.name, textContent: v.title})));
		byId('beside-hands').replaceChildren(...hands, hands.length > 1 ? '' : button('Shut', shut));
		const table = byId('beside-totals'), heads = table.tHead.rows[0].cells;
		[heads[1].textContent, heads[2].textContent] = b.names;
		table.tBodies[0].replaceChildren(...b.totals.map((t) => {
			const head = make('th', {textContent: t.what, scope: 'row'});
			return make('tr', {className: t.are[0] === t.are[1] ? 'same' : ''}, head, ...t.are.map((a) => make('td', {textContent: a})));
		}));
		byId('beside-found').replaceChildren(...list('Found only in the first', b.gone), ...list('Found only in the second', b.new), ...list('What differs', b.things));
		box.hidden = false;
		draw();
		box.focus({preventScroll: true});
		box.scrollIntoView({block: 'start', behavior: calm() ? 'auto' : 'smooth'});
	};
	const beside = async (v) => {
		const a = await desk.say({do: 'beside', name: v.file});
		if (a && a.beside) show(a.beside, [button(`Go on with ${v.name}`, () => goOn(v))]);
	};
	const goOn = async (v) => {
		const a = await desk.say({do: 'open', name: v.file});
		if (a && !a.refused) shut();
	};
	const besideWay = async (w, place) => {
		const a = await desk.say({do: 'beside', place});
		if (a && a.beside) show(a.beside, [button('Take it', () => take(place), true), button('Leave it', shut)]);
	};
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
		show(state) {
			if (pair && !box.hidden && box.dataset.file !== state.file) shut();
			box.dataset.file = state.file;
			byId('variants').replaceChildren(...state.variants.map((v) => make('li', {}, make('span', {textContent: `${v.name}${v.here ? ', shown here' : ''}`}),
				v.here ? null : button('Side by side', () => beside(v)), v.here ? null : button('Go on with it', () => goOn(v)))));
			const p = state.proposals;
			byId('propose').disabled = p.seeking;
			byId('proposed').textContent = p.seeking ? 'Better ways to hang the works are being sought.' : p.none || (p.ways.length ? 'Proposed, for your rows as they are:' : '');
			byId('ways').replaceChildren(...p.ways.map((w, n) => make('li', {}, make('span', {textContent: `${capital(w.name)}: ${w.doc}`}), button('Side by side', () => besideWay(w, n)), button('Take it', () => take(n)))));
			for (const b of all('#variants button, #ways button')) b.setAttribute('aria-label', `${b.textContent}: ${b.parentNode.firstChild.textContent}`);
		},
		beside: show,
	};
}
