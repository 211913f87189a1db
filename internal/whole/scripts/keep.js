// What is kept in this browser, for this page alone (Indexed Database API, W3C): the files of the booths, and which is open.
// Without a store, as in some private windows, all is kept as long as the page is open.
export function makeKeep() {
	const done = (request) => new Promise((yes, no) => {
		request.onsuccess = () => yes(request.result);
		request.onerror = () => no(request.error);
	});
	const opened = (async () => {
		// One window at a time keeps: two would write over each other.
		if (navigator.locks) {
			const mine = await new Promise((yes) => navigator.locks.request('boothmock', {ifAvailable: true}, (lock) => {
				yes(Boolean(lock));
				return lock ? new Promise(() => {}) : null;
			}).catch(() => yes(true)));
			if (!mine) throw new Error('another window');
		}
		const request = indexedDB.open('boothmock', 1);
		request.onupgradeneeded = () => request.result.createObjectStore('files');
		return done(request);
	})();
	const store = async (how) => (await opened).transaction('files', how).objectStore('files');
	const ended = (s) => new Promise((yes, no) => {
		s.transaction.oncomplete = yes;
		s.transaction.onerror = s.transaction.onabort = () => no(s.transaction.error);
	});
	const keep = {
		why: '', // why nothing is kept; empty: it is
		// all gives the files that are kept, and the scene that was open last.
		async all() {
			try {
				const s = await store('readonly');
				const [paths, values] = await Promise.all([done(s.getAllKeys()), done(s.getAll())]);
				const files = paths.map((path, i) => ({path, bytes: values[i]}));
				return {files: files.filter((f) => f.path.startsWith('/')), open: (files.find((f) => f.path === 'open') || {bytes: ''}).bytes};
			} catch (reason) {
				keep.why = reason && reason.message === 'another window' ? 'This page is open in another window, which keeps its booths. What you do in this one is gone when it is closed, unless you save it to your computer.'
					: 'This browser keeps nothing for this page. What you do is gone when it is closed, unless you save it to your computer.';
				return {files: [], open: ''};
			}
		},
		// put keeps files; one without bytes is gone.
		async put(files) {
			if (keep.why) return;
			try {
				const s = await store('readwrite');
				for (const f of files) {
					if (f.bytes === null) s.delete(f.path);
					else s.put(f.bytes, f.path);
				}
				await ended(s);
			} catch (reason) {
				keep.why = 'This browser has no more room for this page: what you do from now on is gone when it is closed. Save your booth to your computer.';
				keep.changed();
			}
		},
		async forget() {
			const s = await store('readwrite');
			s.clear();
			await ended(s);
		},
		changed() {},
	};
	return keep;
}
