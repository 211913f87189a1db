// The program in this page: a worker runs it (see worker.js), and its disk is kept in this browser. When it ends it is started again.
import {byId} from '../../handout/page/scripts/dom.js';
import {sevenBits} from './bits.js';
import {keep} from './keep.js';
import {note} from './place.js';
/** @import {File} from './keep.js' */

/**
 * @typedef {Partial<Omit<Go.ProgramAsk, 'try'>> & {do: string, try?: Partial<Go.Ask>}} Ask
 * @typedef {Go.ProgramReply & {bytes: Uint8Array<ArrayBuffer> | null}} Reply bytes are what it carries
 * @typedef {{put?: File[], kept?: boolean, drop?: string, module?: WebAssembly.Module, id?: number, ask?: Ask, file?: Uint8Array | null}} ToWorker kept: what is put was kept already
 * @typedef {{ready?: boolean, kept?: File[], news?: number, memory?: number, ended?: string, id?: number, reply?: Go.ProgramReply, bytes?: Uint8Array<ArrayBuffer> | null}} FromWorker
 */

// lacks are what this browser is too old for.
export const lacks = [['WebAssembly', 'WebAssembly'], ['Worker', 'workers'], ['DecompressionStream', 'unpacking (DecompressionStream)'], ['indexedDB', 'a store of its own (IndexedDB)']]
	.filter(([name]) => !(name in window)).map(([, words]) => words);

/** @type {Worker | null} */
let worker = null;
/** @type {Map<number, {yes(reply: Reply): void, no(reason: Error): void}>} */
const asks = new Map();
let next = 1, ready = () => {}, unready = /** @param {Error} _ */ (_) => {};
/** @type {Map<string, number>} how often the program ended while a booth was open */
const ends = new Map();

/** @param {ToWorker} message @param {Transferable[]} [transfer] */
function post(message, transfer) {
	if (!worker) throw new Error('the program has ended');
	worker.postMessage(message, transfer || []);
}

// compiled is the program, and the address of its worker's script: made once.
async function compiled() {
	const packed = sevenBits(byId('program').textContent);
	byId('program').remove();
	const wasm = new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip')), {headers: {'Content-Type': 'application/wasm'}});
	const script = URL.createObjectURL(new Blob([byId('worker').textContent], {type: 'text/javascript'}));
	return {module: await WebAssembly.compileStreaming(wasm), script};
}
const made = lacks.length ? null : compiled();

// run starts the program with what is kept, and opens the booth that was open last, or the demo; also where the program ended twice
// with that booth. wrong is why it is not that booth.
/** @returns {Promise<Reply>} */
async function run() {
	if (!made) throw new Error('too old');
	const [{module, script}, {files, open}] = await Promise.all([made, keep.all()]);
	worker = new Worker(script);
	worker.onmessage = hear;
	worker.onerror = (e) => ended(e.message);
	const begun = new Promise((/** @type {(value?: unknown) => void} */ yes, no) => ([ready, unready] = [yes, no]));
	post({put: files, kept: true, module});
	await begun;
	const there = files.some((f) => f.path === '/' + open), often = (ends.get(open) || 0) > 1;
	let reply = await program.ask(there && !often ? {do: 'open', path: open} : {do: 'demo'}), wrong = reply.wrong;
	if (wrong) reply = await program.ask({do: 'demo'});
	if (reply.wrong) throw new Error(reply.wrong);
	if (often) wrong = 'the program ended each time. It is still kept: take it out with Save it, and open it with the program for computers.';
	program.opened(reply.path);
	return {...reply, wrong};
}

/** @param {MessageEvent<FromWorker>} message */
function hear({data}) {
	const waits = asks.get(data.id || 0);
	if (data.ready) ready();
	else if (data.kept) {
		keep.put(data.kept);
		note(data.kept);
	}
	else if (data.news) program.heard(data.news);
	else if (data.memory) document.documentElement.dataset.memory = String(data.memory); // bytes
	else if (data.ended !== undefined) ended(data.ended);
	else if (waits && data.reply) {
		asks.delete(data.id || 0);
		waits.yes({...data.reply, bytes: data.bytes || null});
	}
}

// ended starts the program again.
/** @param {string} why */
function ended(why) {
	if (!worker) return;
	worker.terminate();
	worker = null;
	ends.set(program.path, (ends.get(program.path) || 0) + 1);
	const reason = new Error(why === 'memory' ? 'The program in this page needed more memory than it may have (1 GB). It was started again, and what you had done is kept. Fewer works, or smaller photographs, need less.'
		: `The program in this page has ended by itself (${why}). It was started again, and what you had done is kept.`);
	unready(reason);
	for (const waits of asks.values()) waits.no(reason);
	asks.clear();
	program.running = run();
	program.running.then((reply) => program.again(reply, reason.message), () => program.lost());
}

export const program = {
	path: '', // of the scene that is open
	/** @type {Promise<Reply>} */
	running: made ? run() : Promise.reject(new Error('too old')),
	heard: /** @param {number} _ */ (_) => {},
	lost() {},
	again: /** @param {Reply} _ @param {string} why */ (_, why) => console.warn(why),
	// ask gives the program's reply.
	/** @param {Ask} ask @param {Uint8Array<ArrayBuffer>} [file] @returns {Promise<Reply>} */
	ask: (ask, file) => new Promise((yes, no) => {
		const id = next++;
		post({id, ask, file: file || null}, file ? [file.buffer] : []);
		asks.set(id, {yes, no});
	}),
	// put puts files onto the program's disk.
	/** @param {File[]} files */
	put: (files) => post({put: files}, files.map((f) => /** @type {Uint8Array<ArrayBuffer>} */ (f.bytes).buffer)),
	/** @param {string} path */
	drop: (path) => post({drop: path}),
	// opened notes which booth is open.
	/** @param {string | undefined} path */
	opened(path) {
		program.path = path || '';
		keep.open(program.path);
	},
	// stop ends the program for good.
	stop() {
		if (worker) worker.terminate();
		worker = null;
	},
};
