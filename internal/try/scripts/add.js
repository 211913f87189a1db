// Adding to the booth: things in usual sizes, and works by their photographs.
import {byId, make} from '../../handout/page/scripts/dom.js';
import {blank, fill} from './ask.js';
/** @import {Desk} from './desk.js' */

/** @param {Desk} desk */
export function makeAdd(desk) {
	const list = byId('add'), files = byId('files');
	list.addEventListener('change', () => {
		const [field, text] = list.value.split('|');
		list.value = '';
		if (field === 'sign') return fill(desk, 'sign', 'A sign', 'It stands on the first table or pedestal; its label moves it.', 'Add it', [blank('What it says, a line each', '', true)], (title) => ({do: 'add', field, text, title}));
		return desk.say({do: 'add', field, text});
	});

	// One photograph after the other is asked about.
	/** @param {File[]} photographs */
	const bring = async (photographs) => {
		if (!desk.state.file && !await desk.save()) return;
		for (const file of photographs) {
			const title = file.name.replace(/\.[^.]*$/, '').replace(/[-_]+/g, ' ').trim();
			const look = make('img', {src: URL.createObjectURL(file), alt: '', className: 'look'});
			look.addEventListener('error', () => look.remove()); // a kind that this browser does not show
			const size = blank(`Height x width of the picture itself, in ${desk.state.units}`, '');
			const done = fill(desk, 'photograph', 'A new work', 'Its photograph is copied beside the scene, and the work waits on the floor until it is hung.', 'Add it',
				[size, blank('Title', title)], (text, name) => ({do: 'bring', name: file.name, text, title: name}), file);
			byId('ask-fields').prepend(look);
			const go = await done;
			URL.revokeObjectURL(look.src);
			if (!go) return;
		}
	};
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
			const options = [make('option', {value: '', textContent: 'Add to the booth…'}),
				...state.goods.map((g) => make('optgroup', {label: g.label}, ...g.sizes.map((s) => make('option', {value: `${g.name}|${s}`, textContent: /\d/.test(s) ? `${g.name} ${s} ${state.units}` : s}))))];
			if (list.textContent !== options.map((o) => o.textContent).join('')) list.replaceChildren(...options);
		},
	};
}
