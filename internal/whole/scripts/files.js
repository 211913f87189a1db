// Beginning with another booth, and taking this one along.
import {all, byId, make} from '../../handout/page/scripts/dom.js';
import {put} from '../../try/scripts/ask.js';
import {desk, startDesk, tellPerson} from '../../try/scripts/desk.js';
import {channel, folderOf, overwrites, savedIn, shown} from './channel.js';
import {keep} from './keep.js';
import {picks, place} from './place.js';
import {lacks, program} from './program.js';
/** @import {Ask, Reply} from './program.js' */
/** @typedef {{path: string, file: globalThis.File}} Given what somebody chose or dropped */

/** @type {{[end: string]: string}} */
const types = {png: 'image/png', jpg: 'image/jpeg', gif: 'image/gif', svg: 'image/svg+xml', html: 'text/html', json: 'application/json', pdf: 'application/pdf', glb: 'model/gltf-binary', zip: 'application/zip'};
const mostBytes = 400e6; // of all files of a booth: with what the program makes of them, a page has no more

/** @param {string} words */
function working(words) {
	byId('busy').textContent = words;
	for (const b of /** @type {HTMLButtonElement[]} */ (all('#take button, #take select, #take input'))) b.disabled = Boolean(words);
}

/** @param {string} words */
function wrong(words) {
	byId('wrong').textContent = words;
	byId('wrong').hidden = !words;
	if (!words) return;
	tellPerson('', false); // what went well before
	byId('wrong').scrollIntoView({block: 'nearest'});
}

/** @param {unknown} reason */
const whyOf = (reason) => (reason instanceof Error ? reason.message : String(reason));

// give saves bytes as a file where the browser saves files.
/** @param {string} name @param {Reply} r */
function give(name, r) {
	const url = URL.createObjectURL(new Blob(r.bytes ? [r.bytes] : [], {type: types[name.split('.').pop() || ''] || 'application/octet-stream'}));
	make('a', {href: url, download: name.split('/').pop()}).click();
	setTimeout(() => URL.revokeObjectURL(url), 60000);
}

function keptWords() {
	const name = place.name(folderOf(program.path));
	byId('into').hidden = !picks || Boolean(name);
	byId('kept').textContent = (name ? `This booth is in the folder ${name} on your computer: Save writes what you changed there, and files that you make go into mockup in it. ` : '') + (keep.why || 'Your booths are kept in this browser on this computer, as you change them; they are gone when its data is cleared. Nothing is sent anywhere.');
	byId('forget').hidden = Boolean(keep.why);
}
keep.changed = keptWords;

/** @param {string} name @param {Ask} ask */
async function download(name, ask) {
	const folder = folderOf(program.path);
	wrong('');
	working(`${name} is being made. This may take a minute or more; you can go on.`);
	try {
		if (ask.do === 'make' && await place.allowed(folder).catch(() => false)) return await mockup(name, folder, ask.names || []);
		const r = await program.ask(ask);
		if (r.wrong) return wrong(r.wrong);
		give(name, r);
		tellPerson(`${name} is saved where this browser saves files.${r.lines ? ' ' + r.lines.join(' ') : ''}`, false);
	} catch (reason) {
		wrong(`${name} could not be made: ${whyOf(reason)}`);
	} finally {
		working('');
	}
	return null;
}

// mockup makes files into the booth's folder on this computer, one after the other.
/** @param {string} name @param {string} folder @param {string[]} names */
async function mockup(name, folder, names) {
	const files = [];
	let lines = '';
	for (const n of names) {
		const r = await program.ask({do: 'make', names: [n]});
		if (r.wrong) return wrong(r.wrong);
		files.push({path: `mockup/${n}`, bytes: r.bytes});
		lines = r.lines ? ' ' + r.lines.join(' ') : '';
	}
	const where = place.name(folder), there = await place.put(folder, files, (list) => overwrites(where, list));
	tellPerson(there ? `${name} ${names.length > 1 ? 'are' : 'is'} saved in mockup in the folder ${where}.${lines}` : `What was there in the folder ${where} stays as it is.`, false);
	return null;
}

const boothName = () => program.path.split('/').slice(-2)[0];

async function listFiles() {
	const {files = []} = await program.ask({do: 'files'});
	byId('output').replaceChildren(
		make('option', {value: ':scene', textContent: 'The booth itself: scene, photographs and lists (ZIP)'}),
		...files.map((f) => make('option', {value: f.name, textContent: `${f.name}: ${f.doc}`})),
		make('option', {value: ':all', textContent: 'All of these files (ZIP)'}));
	const {lines = []} = await program.ask({do: 'booths'});
	byId('booths').replaceChildren(...lines.map((name) => make('option', {value: name, textContent: name, selected: name === boothName()})));
}

// show shows another booth than before.
/** @param {Reply} reply */
async function show(reply) {
	program.opened(reply.path);
	const state = await shown(reply.state);
	desk.state = /** @type {any} */ (desk.chosen = null);
	desk.take(state);
	await listFiles();
	keptWords();
	tellPerson([`${state.title} is open.`, ...reply.lines || []].join(' '), false);
}

// begun opens the booth in a folder of the program, once somebody is sure where that takes its time; it gives whether it did.
/** @param {string} folder */
async function begun(folder) {
	let r = await program.ask({do: 'begin', path: folder});
	if (r.many && await sure(r.many)) r = await program.ask({do: 'begin', path: folder, sure: true});
	if (r.wrong) throw new Error(r.wrong.replaceAll(folder + '/', ''));
	if (r.state) await show(r);
	return Boolean(r.state);
}

/** @param {number} many @returns {Promise<boolean>} */
const sure = (many) => new Promise((done) => {
	const box = byId('ask'), go = make('button', {type: 'button', textContent: 'Open it', onclick: () => box.close('go')});
	put('many', `This booth has ${many} works`, 'In a browser that takes its time: some minutes until it is open, and seconds after each move. The program for computers is several times as fast.',
		[make('button', {type: 'button', className: 'main', textContent: 'Leave it', onclick: () => box.close('')}), go]);
	box.returnValue = '';
	box.onclose = () => done(box.returnValue === 'go');
});

// beginWith opens what somebody chose or dropped.
/** @param {Given[]} files @param {FileSystemDirectoryHandle} [handle] the folder that holds them all */
async function beginWith(files, handle) {
	const sum = files.reduce((n, f) => n + f.file.size, 0);
	if (sum > mostBytes) return wrong(`These files have ${Math.round(sum / 1e6)} MB; ${mostBytes / 1e6} MB is what a page can hold. Make the photographs smaller: 4000 pixels on a side are more than enough.`);
	const deep = files.every((f) => f.path.includes('/')) ? files[0].path.split('/')[0] : '';
	const inside = deep && files.every((f) => f.path.startsWith(deep + '/'));
	const zip = files.length === 1 && /\.zip$/i.test(files[0].path);
	const wished = (inside ? deep : files[0].path.replace(/.*\//, '').replace(/\.[^.]*$/, '')).normalize('NFC').replace(/[^\p{L}\p{N} _-]+/gu, ' ').trim().slice(0, 60) || 'booth';
	wrong('');
	working('The files are being read.');
	let folder = '';
	try {
		const names = new Set((await program.ask({do: 'booths'})).lines || []);
		let name = wished;
		for (let n = 2; names.has(name); n++) name = `${wished} ${n}`;
		folder = `booths/${name}`;
		if (zip) {
			const r = await program.ask({do: 'unzip', path: folder}, new Uint8Array(await files[0].file.arrayBuffer()));
			if (r.wrong) throw new Error(r.wrong);
		} else {
			for (const f of files) {
				const path = inside ? f.path.slice(deep.length + 1) : f.path;
				const bytes = new Uint8Array(await f.file.arrayBuffer());
				program.put([{path: `/${folder}/${path}`, bytes}]);
			}
		}
		if (!await begun(folder)) program.drop('/' + folder);
		else if (handle) {
			await place.took(folder, handle, files.map((f) => ({path: f.path.slice(deep.length + 1), file: f.file})));
			keptWords();
		}
	} catch (reason) {
		await program.running;
		if (folder) program.drop('/' + folder);
		wrong(whyOf(reason));
	} finally {
		working('');
	}
	return null;
}

// Files of what was dropped, folders and all that is in them: by handles (File System Standard, WHATWG), as Chromium reads entries of no
// page that is opened from a folder; elsewhere by entries (File and Directory Entries API, W3C).
/** @param {FileSystemHandle} handle @param {string} path @param {Given[]} out */
async function byHandle(handle, path, out) {
	if (handle instanceof FileSystemFileHandle) out.push({path: path + handle.name, file: await handle.getFile()});
	if (handle instanceof FileSystemDirectoryHandle) for await (const kid of handle.values()) await byHandle(kid, `${path}${handle.name}/`, out);
}
/** @param {FileSystemEntry} entry @param {string} path @param {Given[]} out */
async function byEntry(entry, path, out) {
	if (entry.isFile) {
		out.push({path: path + entry.name, file: await new Promise((yes, no) => /** @type {FileSystemFileEntry} */ (entry).file(yes, no))});
		return;
	}
	const reader = /** @type {FileSystemDirectoryEntry} */ (entry).createReader();
	for (;;) {
		/** @type {FileSystemEntry[]} */
		const some = await new Promise((yes, no) => reader.readEntries(yes, no));
		if (!some.length) return;
		for (const e of some) await byEntry(e, `${path}${entry.name}/`, out);
	}
}

// plain leaves out what computers hide, such as .DS_Store.
/** @param {Given[]} files */
const plain = (files) => files.filter((f) => !f.path.split('/').some((n) => n.startsWith('.')));

// A folder, a scene, a list or a ZIP that is dropped anywhere begins a booth; photographs alone are works of this one, but in the box.
window.addEventListener('drop', async (e) => {
	const items = [...e.dataTransfer ? e.dataTransfer.items : []].filter((i) => i.kind === 'file');
	const list = items.flatMap((i) => i.webkitGetAsEntry() || []);
	const box = byId('drop').contains(/** @type {Node} */ (e.target));
	if (!list.length || !box && !list.some((f) => f.isDirectory || /\.(ya?ml|csv|xlsx|ods|zip)$/i.test(f.name))) return;
	e.preventDefault();
	e.stopImmediatePropagation();
	const handles = items.map((i) => /** @type {any} */ (i).getAsFileSystemHandle?.()); // all at once: after this event they are gone
	/** @type {Given[]} */
	const files = [];
	let handle;
	try {
		for (const [k, entry] of list.entries()) {
			handle = await handles[k];
			await (handle ? byHandle(handle, '', files) : byEntry(entry, '', files));
		}
	} catch (reason) {
		wrong(`What was dropped cannot be read (${whyOf(reason)}). Choose it with one of the buttons instead.`);
		return;
	}
	const given = plain(files);
	if (given.length) beginWith(given, list.length === 1 && handle instanceof FileSystemDirectoryHandle ? handle : undefined);
	else wrong('There are no files in what was dropped.');
}, true);
for (const [input, button] of /** @type {const} */ ([['choose-files', 'choose-files-button'], ['choose-folder', 'choose-folder-button']])) {
	const files = byId(input);
	files.addEventListener('change', () => {
		const given = plain([...files.files || []].map((file) => ({path: file.webkitRelativePath || file.name, file})));
		files.value = '';
		if (given.length) beginWith(given);
	});
	byId(button).addEventListener('click', () => (picks && input === 'choose-folder' ? pick() : files.click()));
}

// pick begins with a folder into which the page may write.
async function pick() {
	/** @type {Given[]} */
	const files = [];
	try {
		const handle = await /** @type {any} */ (window).showDirectoryPicker({id: 'booths', mode: 'readwrite'});
		await byHandle(handle, '', files);
		const given = plain(files);
		if (given.length) await beginWith(given, handle);
		else wrong('There are no files in that folder.');
	} catch (reason) {
		if (!(reason instanceof DOMException && reason.name === 'AbortError')) wrong(`That folder cannot be read (${whyOf(reason)}).`);
	}
}
byId('into').addEventListener('click', async () => {
	const folder = folderOf(program.path);
	try {
		await place.into(folder);
		await desk.say({do: 'save'});
		tellPerson(await savedIn(folder), false);
	} catch (reason) {
		if (!(reason instanceof DOMException && reason.name === 'AbortError')) wrong(`That folder cannot be written (${whyOf(reason)}).`);
	}
	keptWords();
});

// change opens another booth that the program has.
/** @param {string} words @param {() => Promise<unknown>} open */
async function change(words, open) {
	wrong('');
	working(words);
	try {
		await open();
	} catch (reason) {
		await program.running;
		wrong(whyOf(reason));
	} finally {
		working('');
	}
}
byId('demo').addEventListener('click', () => change('The demo is being opened.', async () => {
	const r = await program.ask({do: 'demo'});
	if (r.wrong) throw new Error(r.wrong);
	await show(r);
}));
byId('go-on').addEventListener('click', () => change('The booth is being opened.', () => begun('booths/' + byId('booths').value)));
byId('take-out').addEventListener('click', () => download(`${byId('booths').value}.zip`, {do: 'scene', path: 'booths/' + byId('booths').value}));
byId('make').addEventListener('click', () => {
	const which = byId('output').value, name = boothName();
	if (which === ':scene') return download(`${name}.zip`, {do: 'scene'});
	if (which === ':all') return download(`${name} all files.zip`, {do: 'make', names: [...byId('output').options].map((o) => o.value).filter((v) => !v.startsWith(':'))});
	return download(which, {do: 'make', names: [which]});
});
byId('terms-button').addEventListener('click', () => {
	byId('terms').hidden = !byId('terms').hidden;
});
byId('forget').addEventListener('click', () => {
	const names = [...byId('booths').options].map((o) => o.value);
	const go = make('button', {type: 'button', textContent: names.length > 1 ? `Delete all ${names.length} booths` : 'Delete this booth', onclick: async () => {
		program.stop();
		await keep.forget();
		location.reload();
	}});
	put('forget', 'Delete all booths from this browser?', `${names.join(', ')}: what you did not save to your computer is gone for good. Files on your computer stay.`, [make('button', {type: 'button', className: 'main', textContent: 'Keep them', onclick: () => byId('ask').close()}), go]);
});
startDesk(channel);
program.again = async (reply, why) => {
	await show(reply).catch(() => {});
	wrong([why, notThat(reply)].join(' ').trim());
};
/** @param {Reply} reply */
const notThat = (reply) => (reply.wrong ? `The booth that was open last cannot be shown, so the demo is: ${reply.wrong}` : '');
program.running.then(async (reply) => {
	await place.ready;
	keptWords();
	await listFiles();
	wrong(notThat(reply));
	document.documentElement.dataset.ready = 'yes';
}).catch((reason) => {
	byId('take').hidden = true;
	byId('trouble').textContent = lacks.length ? `This browser is too old for this page: it lacks ${lacks.join(', ')}. A current Chrome, Edge, Firefox or Safari opens it.` : `The program in this page could not be started: ${whyOf(reason)}`;
	byId('trouble').hidden = false;
	tellPerson('', false);
});
