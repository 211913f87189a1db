// The channel to the program, which is in this page: a worker runs it (see worker.js), and its disk is kept in this browser.
import {byId} from '../../handout/page/scripts/dom.js';
import {version} from '../../try/scripts/words.js';
import {sevenBits} from './bits.js';
import {makeKeep} from './keep.js';

// lacks are what this browser is too old for.
export const lacks = [['WebAssembly', 'WebAssembly'], ['Worker', 'workers'], ['DecompressionStream', 'unpacking (DecompressionStream)'], ['indexedDB', 'a store of its own (IndexedDB)']]
	.filter(([name]) => !(name in window)).map(([, words]) => words);

export const keep = makeKeep();
export const program = {
	worker: null, asks: new Map(), next: 1, heard() {}, lost() {}, path: '',
	// ask gives the program's reply, and what it carries as bytes.
	ask(ask, file) {
		return new Promise((yes, no) => {
			if (!program.worker) return no(new Error('the program has ended'));
			const id = program.next++;
			program.asks.set(id, [yes, no]);
			return program.worker.postMessage({id, ask, file: file || null}, file ? [file.buffer] : []);
		});
	},
	ended() {
		if (program.worker) program.worker.terminate();
		program.worker = null;
		for (const [, no] of program.asks.values()) no(new Error('the program has ended'));
		program.asks.clear();
		program.lost();
	},
	hear({data}) {
		if (data.ready) program.ready();
		else if (data.kept) keep.put(data.kept);
		else if (data.news) program.heard(data.news);
		else if (data.ended !== undefined) program.ended();
		else {
			const [yes] = program.asks.get(data.id);
			program.asks.delete(data.id);
			yes({...data.reply, bytes: data.bytes});
		}
	},
	// start runs the program with what is kept, and opens the booth that was open last, or the demo.
	async start() {
		const kept = keep.all();
		const packed = sevenBits(byId('program').textContent);
		byId('program').remove();
		const wasm = new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip')), {headers: {'Content-Type': 'application/wasm'}});
		const module = await WebAssembly.compileStreaming(wasm);
		const address = URL.createObjectURL(new Blob([byId('worker').textContent], {type: 'text/javascript'}));
		program.worker = new Worker(address);
		program.worker.onmessage = program.hear;
		program.worker.onerror = program.ended;
		const ready = new Promise((yes) => (program.ready = yes));
		const {files, open} = await kept;
		program.worker.postMessage({put: files, kept: true, module});
		await ready;
		URL.revokeObjectURL(address);
		const paths = files.map((f) => f.path);
		let reply = paths.includes('/' + open) ? await program.ask({do: 'open', path: open}) : await program.ask({do: 'demo'});
		const wrong = reply.wrong;
		if (wrong) reply = await program.ask({do: 'demo'});
		if (reply.wrong) throw new Error(reply.wrong);
		program.opened(reply);
		return {...reply, wrong};
	},
	// opened notes which booth is open.
	opened(reply) {
		program.path = reply.path;
		keep.put([{path: 'open', bytes: reply.path}]);
	},
};
export const begun = lacks.length ? Promise.reject(new Error('too old')) : program.start();

// Pictures that the program has, by their addresses there. A picture's address changes with it.
const pictures = new Map();
async function picture(address) {
	if (!pictures.has(address)) {
		pictures.set(address, program.ask({do: 'image', path: address}).then((r) => {
			const blob = new Blob([r.bytes], {type: r.mime});
			return {blob, url: URL.createObjectURL(blob)};
		}));
	}
	return pictures.get(address);
}
export async function shown(state) {
	await Promise.all(state.works.map(async (w) => {
		if (w.image) w.image = (await picture(w.image)).url;
	}));
	return state;
}

export const channel = {
	async say(ask, file) {
		const r = await program.ask({do: 'say', try: {version, ...ask}}, file ? new Uint8Array(await file.arrayBuffer()) : null);
		if (r.wrong) throw new Error(r.wrong);
		if (r.answer.state.file !== program.path) program.opened({path: r.answer.state.file}); // a variant
		await shown(r.answer.state);
		return r.answer;
	},
	async state() {
		await begun;
		return shown((await program.ask({do: 'state'})).state);
	},
	news(heard, lost) {
		program.heard = heard;
		program.lost = lost;
		if (!program.worker) lost();
	},
	async side(number, which, view) {
		const r = await program.ask({do: 'side', at: number, which, path: view});
		return r.wrong ? '' : URL.createObjectURL(new Blob([r.bytes], {type: r.mime}));
	},
	async booth(at, light) {
		const r = await program.ask({do: 'booth', at, full: light === 'full'});
		if (r.wrong) throw new Error('the booth cannot be drawn');
		return r.bytes ? {facts: r.facts, bytes: r.bytes} : null;
	},
	picture: async (address) => (await picture(address)).blob,
};
