// Adding to the booth: things in usual sizes, and works by their photographs.
import {byId, make} from '../../handout/page/scripts/dom.js';
import {capital} from '../../handout/page/scripts/words.js';
import {blank, fill} from './ask.js';
import {picked} from './hold.js';
/** @import {Desk} from './desk.js' */

/** @param {Desk} desk */
export function makeAdd(desk) {
	const list = byId('add'), files = byId('files');
	picked(list, (value) => {
		const [field, text] = value.split('|');
		if (field === 'sign') return fill(desk, 'sign', 'A sign', 'It stands on the first table or pedestal; its label moves it.', 'Add it', [blank('What it says, a line each', '', true)], (title) => ({do: 'add', field, text, title}));
		return desk.say({do: 'add', field, text});
	});

	// ask asks about a photograph, and gives whether it was added.
	/** @param {string} name @param {Blob} picture @param {string} words @param {File} [file] */
	const ask = async (name, picture, words, file) => {
		const title = name.replace(/.*\//, '').replace(/\.[^.]*$/, '').replace(/[-_]+/g, ' ').trim();
		const look = make('img', {src: URL.createObjectURL(picture), alt: '', className: 'look'});
		look.addEventListener('error', () => look.remove()); // a kind that this browser does not show
		const done = fill(desk, 'photograph', 'A new work', words, 'Add it', [blank(`Height x width of the picture itself, in ${desk.state.units === 'cm' ? 'centimetres' : 'inches'}`, ''), blank('Title', capital(title))],
			(text, called) => ({do: 'bring', name, text, title: called}), file);
		byId('ask-fields').prepend(look);
		const added = await done;
		URL.revokeObjectURL(look.src);
		return added;
	};
	// One photograph after the other is asked about.
	/** @param {File[]} photographs */
	const bring = async (photographs) => {
		if (!desk.state.file && !await desk.save()) return;
		for (const file of photographs) if (!await ask(file.name, file, 'Its photograph is copied beside the scene, and the work waits on the floor until it is hung.', file)) return;
	};
	// Those that lie beside the scene, too: they are not copied.
	const pick = async () => {
		for (let n = 1, all = desk.state.loose.length; desk.state.loose.length; n++) {
			const {name, image} = desk.state.loose[0];
			if (!await ask(name, await desk.channel.picture(image).catch(() => new Blob()), `${name}, photograph ${n} of ${all} in the folder that are of no work yet. The work waits on the floor until it is hung.`)) return;
		}
	};
	byId('loose').addEventListener('click', pick);
	let of = ''; // the scene that was shown last
	byId('bring').addEventListener('click', () => files.click());
	files.addEventListener('change', () => {
		bring([...files.files || []]);
		files.value = '';
	});
	/** @param {DragEvent} e */
	const carried = (e) => (e.dataTransfer && e.dataTransfer.types.includes('Files') ? e.dataTransfer : null);
	window.addEventListener('dragover', (e) => {
		const data = carried(e);
		if (!data) return;
		e.preventDefault();
		data.dropEffect = byId('ask').open ? 'none' : 'copy';
	});
	window.addEventListener('drop', (e) => {
		const data = carried(e);
		if (!data) return;
		e.preventDefault();
		if (!byId('ask').open) bring([...data.files]);
	});

	return {
		/** @param {Go.State} state */
		show(state) {
			byId('loose').hidden = !state.loose.length;
			byId('loose').textContent = state.loose.length === 1 ? 'A photograph here is of no work yet…' : `${state.loose.length} photographs here are of no work yet…`;
			if (of !== state.file && !state.works.length && state.loose.length && !state.asks) queueMicrotask(pick); // a booth that is begun with photographs alone
			of = state.file;
			const options = [make('option', {value: '', textContent: 'Add to the booth…'}),
				...state.goods.map((g) => make('optgroup', {label: g.label}, ...g.sizes.map((s) => make('option', {value: `${g.name}|${s}`, textContent: /\d/.test(s) ? `${g.name} ${s} ${state.units}` : s}))))];
			if (list.textContent !== options.map((o) => o.textContent).join('')) list.replaceChildren(...options);
		},
	};
}
