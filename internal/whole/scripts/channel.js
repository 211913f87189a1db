// The channel to the program, which is in this page.
import {version} from '../../try/scripts/words.js';
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

/** @type {Channel} */
export const channel = {
	async say(ask, file) {
		const r = await program.ask({do: 'say', try: {version, ...ask}}, file ? new Uint8Array(await file.arrayBuffer()) : undefined);
		if (r.wrong || !r.answer) throw new Error(r.wrong);
		if (r.answer.state) {
			if (r.answer.state.file !== program.path) program.opened(r.answer.state.file); // a variant
			await shown(r.answer.state);
		}
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
