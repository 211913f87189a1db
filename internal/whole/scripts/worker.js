// The worker in which the program runs, with its disk. What is changed on the disk below kept is told to the page, which keeps it.
import {makeDisk} from './disk.js';
/** @import {FromWorker, ToWorker} from './program.js' */

const kept = '/booths/';
const mostMemory = 1 << 30; // bytes: more, and a tablet ends the whole page
let restoring = false; // what the page has kept is put back
/** @type {Set<string>} */
const toTell = new Set();
const disk = makeDisk((/** @type {string} */ path) => {
	if (restoring || !path.startsWith(kept) || /\/\.boothmock-/.test(path)) return; // what is begun
	if (!toTell.size) setTimeout(tell);
	toTell.add(path);
});

/** @param {FromWorker} message @param {Transferable[]} [transfer] */
const post = (message, transfer) => postMessage(message, {transfer: transfer || []});

function tell() {
	if (!toTell.size) return;
	const files = [...toTell].map((path) => ({path, bytes: disk.get(path)}));
	toTell.clear();
	post({kept: files}, files.flatMap((f) => (f.bytes ? [f.bytes.buffer] : [])));
}

/** @type {{news(at: number): void, ready(): void, ask: (text: string, file: Uint8Array | null, reply: (text: string, bytes: Uint8Array<ArrayBuffer> | null) => void) => void}} */
const engine = {
	news: (at) => post({news: at}),
	ready: () => post({ready: true}),
	ask() {}, // the program says how
};
/** @type {any} what Go reads */
const all = globalThis;
Object.assign(all, {engine, fs: disk.fs, path: disk.path});
all.process = {getuid: () => 0, getgid: () => 0, geteuid: () => 0, getegid: () => 0, getgroups: () => [], pid: 1, ppid: 1, umask: () => 0o22, cwd: () => '/', chdir() {}};

// start runs the program until it ends, at the latest when it has taken more memory than it may.
/** @param {WebAssembly.Module} module */
async function start(module) {
	const go = new all.Go();
	go.exit = (/** @type {number} */ code) => post({ended: `code ${code}`});
	const grown = go.importObject.gojs['runtime.resetMemoryDataView'];
	go.importObject.gojs['runtime.resetMemoryDataView'] = (/** @type {number} */ sp) => {
		grown(sp);
		post({memory: go.mem.buffer.byteLength});
		if (go.mem.buffer.byteLength <= mostMemory) return;
		post({ended: 'memory'});
		throw new Error('memory');
	};
	go.run(await WebAssembly.instantiate(module, go.importObject)).catch((/** @type {unknown} */ reason) => post({ended: String(reason)}));
}

onmessage = async (/** @type {MessageEvent<ToWorker>} */ {data}) => {
	if (data.put) {
		restoring = Boolean(data.kept);
		for (const f of data.put) if (f.bytes) disk.put(f.path, f.bytes);
		restoring = false;
	}
	if (data.drop) disk.drop(data.drop);
	if (data.module) start(data.module);
	if (data.ask) {
		engine.ask(JSON.stringify(data.ask), data.file || null, (text, bytes) => {
			tell(); // what it wrote, first
			post({id: data.id, reply: JSON.parse(text), bytes}, bytes ? [bytes.buffer] : []);
		});
	}
};
