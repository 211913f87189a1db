// Beginning with another booth, and taking this one along.
import {all, byId, make} from '../../handout/page/scripts/dom.js';
import {put} from '../../try/scripts/ask.js';
import {desk, startDesk, tellPerson} from '../../try/scripts/desk.js';
import {begun, channel, keep, lacks, program, shown} from './channel.js';

const types = {png: 'image/png', jpg: 'image/jpeg', gif: 'image/gif', svg: 'image/svg+xml', html: 'text/html', json: 'application/json', pdf: 'application/pdf', glb: 'model/gltf-binary', zip: 'application/zip'};
const mostBytes = 400e6; // of all files of a booth: with what the program makes of them, a page has no more

function working(words) {
	byId('busy').textContent = words;
	for (const b of all('#take button, #take select, #take input')) b.disabled = Boolean(words);
}

function wrong(words) {
	byId('wrong').textContent = words;
	byId('wrong').hidden = !words;
	if (words) byId('wrong').scrollIntoView({block: 'nearest'});
}

function keptWords() {
	byId('kept').textContent = keep.why || 'Your booths are kept in this browser on this computer, as you change them; they are gone when its data is cleared. Nothing is sent anywhere.';
	byId('forget').hidden = Boolean(keep.why);
}
keep.changed = keptWords;

async function download(name, ask) {
	wrong('');
	working(`${name} is being made. This may take a minute or more; you can go on.`);
	try {
		const r = await program.ask(ask);
		if (r.wrong) return wrong(r.wrong);
		const url = URL.createObjectURL(new Blob([r.bytes], {type: types[name.split('.').pop()] || 'application/octet-stream'}));
		make('a', {href: url, download: name.split('/').pop()}).click();
		setTimeout(() => URL.revokeObjectURL(url), 60000);
		tellPerson(`${name} is saved where this browser saves files.${r.lines ? ' ' + r.lines.join(' ') : ''}`, false);
	} catch (reason) {
		wrong(`${name} could not be made: ${reason.message}.`);
	} finally {
		working('');
	}
	return null;
}

const boothName = () => program.path.split('/').slice(-2)[0];

async function listFiles() {
	const {files} = await program.ask({do: 'files'});
	byId('which').replaceChildren(
		make('option', {value: ':scene', textContent: 'The booth itself: scene, photographs and lists (ZIP)'}),
		...files.map((f) => make('option', {value: f.name, textContent: `${f.name}: ${f.doc}`})),
		make('option', {value: ':all', textContent: 'All of these files (ZIP)'}));
}

// show shows another booth than before.
async function show(reply) {
	program.opened(reply);
	desk.state = desk.chosen = null;
	desk.take(await shown(reply.state));
	await listFiles();
	const many = reply.state.works.length > 60 ? ` It has ${reply.state.works.length} works: in a browser everything takes its time.` : '';
	tellPerson([`${reply.state.title} is open.${many}`, ...reply.lines || []].join(' '), false);
}

// begin opens what somebody chose or dropped: files by their paths.
async function beginWith(files) {
	const sum = files.reduce((n, f) => n + f.file.size, 0);
	if (sum > mostBytes) return wrong(`These files have ${Math.round(sum / 1e6)} MB; ${mostBytes / 1e6} MB is what a page can hold. Make the photographs smaller: 4000 pixels on a side are more than enough.`);
	const deep = files.every((f) => f.path.includes('/')) ? files[0].path.split('/')[0] : '';
	const inside = deep && files.every((f) => f.path.startsWith(deep + '/'));
	const zip = files.length === 1 && /\.zip$/i.test(files[0].path);
	const wished = (inside ? deep : files[0].path.split('/').pop().replace(/\.[^.]*$/, '')).normalize('NFC').replace(/[^\p{L}\p{N} _-]+/gu, ' ').trim().slice(0, 60) || 'booth';
	wrong('');
	working('The files are being read.');
	let folder = '';
	try {
		const names = new Set((await program.ask({do: 'booths'})).lines || []);
		let name = wished;
		for (let n = 2; names.has(name); n++) name = `${wished} ${n}`;
		folder = `booths/${name}`;
		let paths = [];
		if (zip) {
			const r = await program.ask({do: 'unzip', path: folder}, new Uint8Array(await files[0].file.arrayBuffer()));
			if (r.wrong) throw new Error(r.wrong);
			paths = r.lines;
		} else {
			for (const f of files) {
				const path = inside ? f.path.slice(deep.length + 1) : f.path;
				const bytes = new Uint8Array(await f.file.arrayBuffer());
				program.worker.postMessage({put: [{path: `/${folder}/${path}`, bytes}]}, [bytes.buffer]);
				paths.push(path);
			}
		}
		const scenes = paths.filter((p) => /\.ya?ml$/i.test(p) && !p.includes('/'));
		const scene = scenes.find((p) => p === 'booth.yaml') || scenes[0];
		const r = await program.ask(scene ? {do: 'open', path: `${folder}/${scene}`} : {do: 'start', path: folder});
		if (r.wrong) throw new Error(r.wrong.replaceAll(folder + '/', ''));
		if (!r.state) {
			const url = URL.createObjectURL(new Blob([r.bytes], {type: 'text/csv'}));
			make('a', {href: url, download: r.path.split('/').pop()}).click();
			throw new Error(`There is no list of works among these files. ${r.path.split('/').pop()} is saved where this browser saves files: fill in the height and width of each work, then drop it here together with the photographs.`);
		}
		await show(r);
	} catch (reason) {
		if (folder && program.worker) program.worker.postMessage({drop: `/${folder}`});
		wrong(reason.message);
	} finally {
		working('');
	}
	return null;
}

// entries are the files of what was dropped, folders and all that is in them.
async function entries(list) {
	const out = [];
	const walk = async (entry, path) => {
		if (entry.isFile) out.push({path: path + entry.name, file: await new Promise((yes, no) => entry.file(yes, no))});
		else {
			const reader = entry.createReader();
			for (;;) {
				const some = await new Promise((yes, no) => reader.readEntries(yes, no));
				if (!some.length) break;
				for (const e of some) await walk(e, `${path}${entry.name}/`);
			}
		}
	};
	for (const e of list) await walk(e, '');
	return out.filter((f) => !f.path.split('/').some((n) => n.startsWith('.')));
}

// A folder, a scene, a list or a ZIP that is dropped anywhere begins a booth; photographs alone are works of this one, but in the box.
window.addEventListener('drop', async (e) => {
	const list = [...e.dataTransfer ? e.dataTransfer.items : []].map((i) => i.webkitGetAsEntry && i.webkitGetAsEntry()).filter(Boolean);
	const box = byId('drop').contains(e.target);
	if (!list.length || !box && !list.some((f) => f.isDirectory || /\.(ya?ml|csv|xlsx|zip)$/i.test(f.name))) return;
	e.preventDefault();
	e.stopImmediatePropagation();
	beginWith(await entries(list));
}, true);
for (const id of ['choose-files', 'choose-folder']) {
	byId(id).addEventListener('change', (e) => {
		const files = [...e.target.files].map((file) => ({path: file.webkitRelativePath || file.name, file}));
		e.target.value = '';
		if (files.length) beginWith(files.filter((f) => !f.path.split('/').some((n) => n.startsWith('.'))));
	});
	byId(id + '-button').addEventListener('click', () => byId(id).click());
}
byId('demo').addEventListener('click', async () => {
	working('The demo is being opened.');
	const r = await program.ask({do: 'demo'}).catch((reason) => ({wrong: reason.message}));
	if (r.wrong) wrong(r.wrong);
	else await show(r);
	working('');
});
byId('make').addEventListener('click', () => {
	const which = byId('which').value, name = boothName();
	if (which === ':scene') return download(`${name}.zip`, {do: 'scene'});
	if (which === ':all') return download(`${name} all files.zip`, {do: 'make', names: [...byId('which').options].map((o) => o.value).filter((v) => !v.startsWith(':'))});
	return download(which, {do: 'make', names: [which]});
});
byId('terms-button').addEventListener('click', () => {
	byId('terms').hidden = !byId('terms').hidden;
});
byId('forget').addEventListener('click', () => {
	const go = make('button', {type: 'button', textContent: 'Forget all booths', onclick: async () => {
		if (program.worker) program.worker.terminate();
		await keep.forget();
		location.reload();
	}});
	put('forget', 'Forget every booth that is kept in this browser?', 'What was not saved to your computer is gone for good.', [go, make('button', {type: 'button', className: 'main', textContent: 'Keep them', onclick: () => byId('ask').close()})]);
});
startDesk(channel);
begun.then(async (reply) => {
	keptWords();
	await listFiles();
	if (reply.wrong) wrong(`The booth that was open last cannot be shown, so the demo is: ${reply.wrong}`);
	document.documentElement.dataset.ready = 'yes';
}).catch((reason) => {
	byId('take').hidden = true;
	byId('trouble').textContent = lacks.length ? `This browser is too old for this page: it lacks ${lacks.join(', ')}. A current Chrome, Edge, Firefox or Safari opens it.` : `The program in this page could not be started: ${reason.message}`;
	byId('trouble').hidden = false;
	tellPerson('', false);
});
