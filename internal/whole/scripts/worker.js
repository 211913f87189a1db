// The worker in which the program runs, with its disk. What is changed on the disk below kept is told to the page, which keeps it.
import {makeDisk} from './disk.js';

const kept = '/booths/';
let restoring = false; // what the page has kept is put back
const toTell = new Set();
const disk = makeDisk((path) => {
	if (restoring || !path.startsWith(kept) || path.includes('/.boothmock')) return; // what is begun, and shelves that can be made again
	if (!toTell.size) setTimeout(tell);
	toTell.add(path);
});

function tell() {
	const files = [...toTell].map((path) => ({path, bytes: disk.get(path)}));
	toTell.clear();
	postMessage({kept: files}, files.filter((f) => f.bytes).map((f) => f.bytes.buffer));
}

globalThis.fs = disk.fs;
globalThis.path = disk.path;
globalThis.process = {getuid: () => 0, getgid: () => 0, geteuid: () => 0, getegid: () => 0, getgroups: () => [], pid: 1, ppid: 1, umask: () => 0o22, cwd: () => '/', chdir() {}};
const engine = globalThis.engine = {
	news: (at) => postMessage({news: at}),
	ready: () => postMessage({ready: true}),
	ask: null,
};

onmessage = async ({data}) => {
	if (data.put) {
		restoring = data.kept;
		for (const f of data.put) disk.put(f.path, f.bytes);
		restoring = false;
	}
	if (data.drop) disk.drop(data.drop);
	if (data.module) {
		const go = new Go();
		go.exit = (code) => postMessage({ended: code});
		go.run(await WebAssembly.instantiate(data.module, go.importObject)).catch((reason) => postMessage({ended: String(reason)}));
	}
	if (data.ask) {
		engine.ask(JSON.stringify(data.ask), data.file || null, (text, bytes) => postMessage({id: data.id, reply: JSON.parse(text), bytes}, bytes ? [bytes.buffer] : []));
	}
};
