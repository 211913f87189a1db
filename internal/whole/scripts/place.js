// The folder of this computer that a booth was chosen from or saved into, where the browser can write to one (File System Access, WICG,
// over the File System Standard, WHATWG). A file is written aside and there whole when it is closed; one that is not as it was last
// read or written here is somebody else's, and replaced only when that is wished.
import {keep} from './keep.js';
/** @import {File} from './keep.js' */
/**
 * @typedef {{handle: FileSystemDirectoryHandle, known: {[path: string]: string}, changed: string[]}} Place known are the stamps of its files
 *   as they were last read or written here, changed the files that are others by now
 * @typedef {(names: string[]) => Promise<boolean>} Sure asks whether files of somebody else are to be replaced
 */

/** @type {any} what not every browser has */
const here = window;
export const picks = 'showDirectoryPicker' in here;
const prefix = 'place ';
/** @type {Map<string, Place>} by the booth's folder in the program */
const places = new Map();
const ready = keep.values(prefix).then((all) => all.forEach(([key, place]) => places.set(key.slice(prefix.length), place)));
/** @type {Map<string, Set<string>>} files that changed, by the booth's folder, while the page is open */
const changes = new Map();

/** @param {globalThis.File} file */
const stamp = (file) => `${file.size} ${file.lastModified}`;
/** @param {string} folder */
const stays = (folder) => keep.value(prefix + folder, places.get(folder) || null);

// note hears of the files of all booths that changed.
/** @param {File[]} files */
export async function note(files) {
	await ready;
	for (const f of files) {
		const [, home, name, ...rest] = f.path.split('/'), path = rest.join('/'), folder = `${home}/${name}`;
		if (!f.bytes || rest.some((n) => n.startsWith('.')) || path.endsWith('.unsaved')) continue;
		const set = changes.get(folder) || new Set();
		changes.set(folder, set.add(path));
		const place = places.get(folder);
		if (!place || place.changed.includes(path)) continue;
		place.changed.push(path);
		stays(folder);
	}
}

export const place = {
	/** @param {string} folder */
	name(folder) {
		const p = places.get(folder);
		return p ? p.handle.name : '';
	},
	ready,
	// took says that a booth's files were read from a folder.
	/** @param {string} folder @param {FileSystemDirectoryHandle} handle @param {{path: string, file: globalThis.File}[]} files */
	took(folder, handle, files) {
		const known = Object.fromEntries(files.map((f) => [f.path, stamp(f.file)]));
		places.set(folder, {handle, known, changed: [...changes.get(folder) || []].filter((path) => !(path in known))});
		return stays(folder);
	},
	// allowed asks the person, where the browser wants that, whether the page may write there.
	/** @param {string} folder @returns {Promise<boolean>} */
	async allowed(folder) {
		await ready;
		const p = places.get(folder), how = {mode: 'readwrite'}, handle = /** @type {any} */ (p && p.handle);
		if (!p) return false;
		return await handle.queryPermission(how) === 'granted' || await handle.requestPermission(how) === 'granted';
	},
	// into makes a new folder within one that the person picks the booth's own, with all of its files.
	/** @param {string} folder */
	async into(folder) {
		const within = /** @type {FileSystemDirectoryHandle} */ (await here.showDirectoryPicker({id: 'booths', mode: 'readwrite'}));
		const wished = folder.split('/')[1];
		const names = new Set();
		for await (const kid of within.keys()) names.add(kid);
		let name = wished;
		for (let n = 2; names.has(name); n++) name = `${wished} ${n}`;
		const files = (await keep.under(`/${folder}/`)).map((f) => f.path.slice(folder.length + 2)).filter((path) => !path.split('/').some((n) => n.startsWith('.')) && !path.endsWith('.unsaved'));
		places.set(folder, {handle: await within.getDirectoryHandle(name, {create: true}), known: {}, changed: files});
		await stays(folder);
	},
	// save writes what changed of the booth, and gives whether all of it is there.
	/** @param {string} folder @param {Sure} sure */
	async save(folder, sure) {
		const p = places.get(folder);
		if (!p) return false;
		const files = [];
		for (const path of p.changed) files.push(...await keep.under(`/${folder}/${path}`, true));
		return put(folder, files.map((f) => ({path: f.path.slice(folder.length + 2), bytes: f.bytes})), sure);
	},
	put,
};

// put writes files into a booth's folder, and gives whether they are there.
/** @param {string} folder @param {File[]} files @param {Sure} sure */
async function put(folder, files, sure) {
	const p = places.get(folder);
	if (!p) return false;
	const foreign = [];
	for (const f of files) if (!await write(p, f, false)) foreign.push(f);
	const all = !foreign.length || await sure(foreign.map((f) => f.path));
	if (all) for (const f of foreign) await write(p, f, true);
	await stays(folder);
	return all;
}

// write writes a file, but over one of somebody else only if it may; it gives whether it did.
/** @param {Place} p @param {File} f @param {boolean} over */
async function write(p, f, over) {
	const names = f.path.split('/'), name = names.pop() || '', bytes = f.bytes || new Uint8Array();
	let dir = p.handle;
	for (const n of names) dir = await dir.getDirectoryHandle(n, {create: true});
	const there = await dir.getFileHandle(name).then((h) => h.getFile(), (reason) => {
		if (reason.name === 'NotFoundError') return null;
		throw reason;
	});
	if (there && !over && stamp(there) !== p.known[f.path] && !await same(there, bytes)) return false;
	const handle = await dir.getFileHandle(name, {create: true});
	const to = await handle.createWritable();
	try {
		await to.write(bytes);
		await to.close();
	} catch (reason) {
		await to.abort().catch(() => {});
		if (!there) await dir.removeEntry(name).catch(() => {}); // it was made empty
		throw reason;
	}
	p.known[f.path] = stamp(await handle.getFile());
	p.changed = p.changed.filter((path) => path !== f.path);
	return true;
}

/** @param {globalThis.File} file @param {Uint8Array} bytes */
async function same(file, bytes) {
	if (file.size !== bytes.length) return false;
	const is = new Uint8Array(await file.arrayBuffer());
	return is.every((b, i) => b === bytes[i]);
}
