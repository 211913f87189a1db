// The channel to the program, which is in this page.
import {byId, make} from '../../handout/page/scripts/dom.js';
import {put} from '../../try/scripts/ask.js';
import {version} from '../../try/scripts/words.js';
import {place} from './place.js';
import {program} from './program.js';
/** @import {Channel} from '../../try/scripts/desk.js' */
/** @import {Reply} from './program.js' */

/** @param {Reply} r */
const blobOf = (r) => new Blob(r.bytes ? [r.bytes] : [], {type: r.mime});

// Pictures that the program has, by their addresses there. A picture's address changes with it.
/** @type {Map<string, Promise<{blob: Blob, url: string}>>} */
const pictures = new Map();
/** @param {string} address */
function picture(address) {
	let made = pictures.get(address);
	if (!made) {
		made = program.ask({do: 'image', path: address}).then((r) => {
			if (r.wrong) throw new Error(`${r.wrong}: ${address}`);
			const blob = blobOf(r);
			return {blob, url: URL.createObjectURL(blob)};
		});
		made.catch(() => pictures.delete(address));
		pictures.set(address, made);
	}
	return made;
}

// shown is a state with pictures that the page can show.
/** @param {Go.State | null | undefined} state */
export async function shown(state) {
	if (!state) throw new Error('no booth is open');
	await Promise.all(state.works.map(async (w) => {
		if (w.image) w.image = (await picture(w.image)).url;
	}));
	return state;
}

// savedIn writes a booth that was saved into its folder on this computer, and says so.
/** @param {string} folder */
export async function savedIn(folder) {
	const name = place.name(folder);
	try {
		return await place.save(folder, (names) => overwrites(name, names)) ? `Saved in the folder ${name} on your computer, and in this browser` : `Saved in this browser; the folder ${name} stays as it is`;
	} catch (reason) {
		return `Saved in this browser. The folder ${name} could not be written (${reason instanceof Error ? reason.message : reason})`;
	}
}

// overwrites asks whether files of somebody else are to be replaced.
/** @param {string} folder @param {string[]} names @returns {Promise<boolean>} */
export const overwrites = (folder, names) => new Promise((done) => {
	const box = byId('ask'), one = names.length === 1;
	const go = make('button', {type: 'button', textContent: one ? 'Write over it' : 'Write over them', onclick: () => box.close('go')});
	put('overwrite', `${names.slice(0, 5).join(', ')}${names.length > 5 ? ` and ${names.length - 5} more` : ''} in the folder ${folder} ${one ? 'is' : 'are'} not what this page read or wrote there last`,
		'Somebody changed that meanwhile, or it was there before. What you do here is kept in this browser either way.', [make('button', {type: 'button', className: 'main', textContent: one ? 'Leave it' : 'Leave them', onclick: () => box.close('')}), go]);
	box.returnValue = '';
	box.onclose = () => done(box.returnValue === 'go');
});

/** @param {string} path of a scene */
export const folderOf = (path) => path.split('/').slice(0, 2).join('/');

/** @type {Channel} */
export const channel = {
	async say(ask, file) {
		const folder = folderOf(program.path);
		const into = ask.do === 'save' && await place.allowed(folder).catch(() => false); // while the browser knows that somebody pressed
		const r = await program.ask({do: 'say', try: {version, ...ask}}, file ? new Uint8Array(await file.arrayBuffer()) : undefined);
		if (r.wrong || !r.answer) throw new Error(r.wrong);
		if (r.answer.state) {
			if (r.answer.state.file !== program.path) program.opened(r.answer.state.file); // a variant
			await shown(r.answer.state);
		}
		if (into && !r.answer.refused) r.answer.said = await savedIn(folder);
		return r.answer;
	},
	async state() {
		await program.running;
		return shown((await program.ask({do: 'state'})).state);
	},
	news(heard, lost) {
		program.heard = heard;
		program.lost = lost;
	},
	async side(number, which, view) {
		const r = await program.ask({do: 'side', at: number, which, path: view});
		return r.wrong ? '' : URL.createObjectURL(blobOf(r));
	},
	async booth(at, light) {
		const r = await program.ask({do: 'booth', at, full: light === 'full'});
		if (r.wrong) throw new Error('the booth cannot be drawn');
		return r.bytes ? {facts: /** @type {Go.Facts} */ (r.facts), bytes: r.bytes} : null;
	},
	picture: async (address) => (await picture(address)).blob,
};
