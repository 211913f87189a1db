// What is kept in this browser, for this page alone (Indexed Database API, W3C): the files of the booths, and which is open.
// Without a store, as in some private windows, all is kept as long as the page is open.
/** @typedef {{path: string, bytes: Uint8Array<ArrayBuffer> | null}} File one without bytes is gone */

/** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
const done = (request) => new Promise((yes, no) => {
	request.onsuccess = () => yes(request.result);
	request.onerror = () => no(request.error);
});
/** @param {IDBObjectStore} s @returns {Promise<unknown>} */
const ended = (s) => new Promise((yes, no) => {
	s.transaction.oncomplete = yes;
	s.transaction.onerror = s.transaction.onabort = () => no(s.transaction.error);
});

// alone is whether no other window keeps: two would write over each other.
async function alone() {
	if (!navigator.locks) return true;
	return new Promise((yes) => {
		navigator.locks.request('boothmock', {ifAvailable: true}, (lock) => {
			yes(Boolean(lock));
			return lock ? new Promise(() => {}) : null;
		}).catch(() => yes(true));
	});
}

async function database() {
	if (!await alone()) throw new Error('another window');
	const request = indexedDB.open('boothmock', 1);
	request.onupgradeneeded = () => request.result.createObjectStore('files');
	return done(request);
}

function makeKeep() {
	const opened = database();
	/** @param {IDBTransactionMode} how */
	const store = async (how) => (await opened).transaction('files', how).objectStore('files');
	/** @type {Map<string, Uint8Array<ArrayBuffer> | string | null>} by path, what no store holds */
	const held = new Map();

	/** @param {[string, Uint8Array<ArrayBuffer> | string | null][]} list */
	async function put(list) {
		if (!keep.why) {
			try {
				const s = await store('readwrite');
				for (const [path, value] of list) {
					if (value === null) s.delete(path);
					else s.put(value, path);
				}
				await ended(s);
				return;
			} catch {
				keep.why = 'This browser has no more room for this page: what you do from now on is gone when it is closed. Save your booth to your computer.';
				keep.changed();
			}
		}
		for (const [path, value] of list) held.set(path, value);
	}
	const keep = {
		why: '', // why nothing is kept; empty: it is
		// all gives the files that are kept, and the path of the scene that was open last.
		async all() {
			/** @type {Map<string, Uint8Array<ArrayBuffer> | string | null>} */
			const there = new Map();
			try {
				const s = await store('readonly');
				const [paths, values] = await Promise.all([done(s.getAllKeys()), done(s.getAll())]);
				paths.forEach((path, i) => there.set(String(path), values[i]));
			} catch (reason) {
				keep.why ||= reason instanceof Error && reason.message === 'another window' ? 'This page is open in another window, which keeps its booths. What you do in this one is gone when it is closed, unless you save it to your computer.'
					: 'This browser keeps nothing for this page. What you do is gone when it is closed, unless you save it to your computer.';
			}
			for (const [path, value] of held) there.set(path, value);
			/** @type {File[]} */
			const files = [];
			// A copy of what is held: the files are handed over.
			for (const [path, value] of there) if (value instanceof Uint8Array) files.push({path, bytes: held.has(path) ? value.slice() : value});
			return {files, open: String(there.get('open') || '')};
		},
		/** @param {File[]} files */
		put: (files) => put(files.map((f) => [f.path, f.bytes])),
		// under gives the files whose paths begin so, or that one only.
		/** @param {string} begins @param {boolean} [only] */
		async under(begins, only) {
			/** @type {Map<string, any>} */
			const there = new Map();
			if (!keep.why || await opened.then(() => true, () => false)) {
				const s = await store('readonly'), range = only ? IDBKeyRange.only(begins) : IDBKeyRange.bound(begins, begins + '\uffff');
				const [paths, values] = await Promise.all([done(s.getAllKeys(range)), done(s.getAll(range))]);
				paths.forEach((path, i) => there.set(String(path), values[i]));
			}
			for (const [path, value] of held) if (only ? path === begins : path.startsWith(begins)) there.set(path, value);
			return [...there].filter(([, bytes]) => bytes !== null).map(([path, bytes]) => ({path, bytes}));
		},
		// value keeps what is no file, and values gives what was kept under keys that begin so.
		/** @param {string} key @param {any} value */
		value: (key, value) => put([[key, value]]),
		/** @param {string} begins @returns {Promise<[string, any][]>} */
		values: (begins) => keep.under(begins).then((all) => all.map((f) => [f.path, f.bytes]), () => []),
		/** @param {string} path */
		open: (path) => put([['open', path]]),
		async forget() {
			const s = await store('readwrite');
			s.clear();
			await ended(s);
		},
		changed() {},
	};
	return keep;
}

export const keep = makeKeep();
