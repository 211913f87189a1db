// The disk of the program within the page: a file system in memory that speaks as Node's fs does, which is what Go calls
// (syscall/fs_js.go). Nothing is read from or written to the computer. changed hears of every path that became another.
/**
 * @typedef {{number: number, mode: number, time: number}} Inode
 * @typedef {Inode & {kids: Map<string, Node>}} Folder
 * @typedef {Inode & {kids?: undefined, bytes: Uint8Array<ArrayBuffer>, size: number}} Plain
 * @typedef {Folder | Plain} Node
 * @typedef {{at: Node, path: string, place: number, writes: boolean, append: boolean}} Handle
 */

/** @param {(path: string) => void} changed */
export function makeDisk(changed) {
	const constants = {O_RDONLY: 0, O_WRONLY: 1, O_RDWR: 2, O_CREAT: 0o100, O_EXCL: 0o200, O_TRUNC: 0o1000, O_APPEND: 0o2000, O_DIRECTORY: 0o200000};
	const folder = 0o040000, plain = 0o100000;
	/** @type {Map<number, Handle>} */
	const open = new Map();
	let numbers = 0, nextFile = 3;
	/** @param {number} mode @returns {Inode} */
	const inode = (mode) => ({number: ++numbers, mode, time: Date.now()});
	/** @param {number} mode @returns {Folder} */
	const newFolder = (mode) => ({...inode(folder | mode & 0o777), kids: new Map()});
	/** @param {number} mode @param {Uint8Array<ArrayBuffer>} bytes @returns {Plain} */
	const newPlain = (mode, bytes) => ({...inode(plain | mode & 0o777), bytes, size: bytes.length});
	const root = newFolder(0o755);

	/** @param {string} code */
	const fail = (code) => Object.assign(new Error(code), {code});
	/** @param {string} path */
	const names = (path) => {
		const out = [];
		for (const n of path.split('/')) {
			if (n === '..') out.pop();
			else if (n && n !== '.') out.push(n);
		}
		return out;
	};
	/** @param {string} path */
	const full = (path) => '/' + names(path).join('/');
	// find is what is at a path.
	/** @param {string} path */
	const find = (path) => names(path).reduce((/** @type {Node} */ at, name) => {
		if (!at.kids) throw fail('ENOTDIR');
		const next = at.kids.get(name);
		if (!next) throw fail('ENOENT');
		return next;
	}, root);
	// above is the folder that a path's last name stands in, and that name.
	/** @param {string} path @returns {[Folder, string]} */
	const above = (path) => {
		const all = names(path), name = all.pop();
		const dir = find(all.join('/'));
		if (!dir.kids) throw fail('ENOTDIR');
		if (name === undefined) throw fail('EPERM');
		return [dir, name];
	};
	/** @param {string} path @param {Node} at @param {(path: string) => void} each */
	const under = (path, at, each) => {
		each(path);
		if (at.kids) for (const [name, kid] of at.kids) under(path + '/' + name, kid, each);
	};
	/** @param {number} number */
	const handle = (number) => {
		const h = open.get(number);
		if (!h) throw fail('EBADF');
		return h;
	};
	/** @param {Plain} file @param {number} length */
	const room = (file, length) => {
		if (length > file.bytes.length) {
			const larger = new Uint8Array(Math.max(length, 2 * file.bytes.length));
			larger.set(file.bytes.subarray(0, file.size));
			file.bytes = larger;
		}
	};
	/** @param {Node} file @param {number} length */
	const cut = (file, length) => {
		if (file.kids) throw fail('EISDIR');
		room(file, length);
		file.bytes.fill(0, Math.min(length, file.size), file.bytes.length);
		file.size = length;
		file.time = Date.now();
	};
	/** @param {Node} at */
	const stat = (at) => ({
		dev: 1, ino: at.number, mode: at.mode, nlink: 1, uid: 0, gid: 0, rdev: 0, size: at.kids ? 0 : at.size, blksize: 4096, blocks: 0,
		atimeMs: at.time, mtimeMs: at.time, ctimeMs: at.time, isDirectory: () => Boolean(at.kids),
	});
	let said = '';
	const deeds = {
		/** @param {string} path @param {number} flags @param {number} mode */
		open(path, flags, mode) {
			const [dir, name] = names(path).length ? above(path) : [root, ''];
			let at = name ? dir.kids.get(name) : root;
			if (at && flags & constants.O_CREAT && flags & constants.O_EXCL) throw fail('EEXIST');
			if (!at) {
				if (!(flags & constants.O_CREAT)) throw fail('ENOENT');
				at = newPlain(mode, new Uint8Array(0));
				dir.kids.set(name, at);
				changed(full(path));
			}
			if (at.kids && flags & 3) throw fail('EISDIR');
			if (!at.kids && flags & constants.O_DIRECTORY) throw fail('ENOTDIR');
			if (flags & constants.O_TRUNC && !at.kids && at.size) {
				cut(at, 0);
				changed(full(path));
			}
			open.set(nextFile, {at, path: full(path), place: 0, writes: Boolean(flags & 3), append: Boolean(flags & constants.O_APPEND)});
			return nextFile++;
		},
		/** @param {number} number */
		close(number) {
			handle(number);
			open.delete(number);
		},
		/** @param {number} number @param {Uint8Array} into @param {number} offset @param {number} length @param {number | null} place */
		read(number, into, offset, length, place) {
			const h = handle(number);
			if (h.at.kids) throw fail('EISDIR');
			const from = place === null ? h.place : place;
			const piece = h.at.bytes.subarray(Math.min(from, h.at.size), Math.min(from + length, h.at.size));
			into.set(piece, offset);
			if (place === null) h.place += piece.length;
			return piece.length;
		},
		/** @param {number} number @param {Uint8Array} from @param {number} offset @param {number} length @param {number | null} place */
		write(number, from, offset, length, place) {
			if (number === 1 || number === 2) {
				said += new TextDecoder().decode(from.subarray(offset, offset + length));
				const lines = said.split('\n');
				said = lines.pop() || '';
				if (lines.length) console.log(lines.join('\n'));
				return length;
			}
			const h = handle(number);
			const {at} = h;
			if (!h.writes || at.kids) throw fail('EBADF');
			if (!length) return 0;
			const to = h.append ? at.size : place === null ? h.place : place;
			room(at, to + length);
			at.bytes.set(from.subarray(offset, offset + length), to);
			at.size = Math.max(at.size, to + length);
			at.time = Date.now();
			if (place === null) h.place = to + length;
			changed(h.path);
			return length;
		},
		/** @param {string} path */
		readdir: (path) => {
			const at = find(path);
			if (!at.kids) throw fail('ENOTDIR');
			return [...at.kids.keys()];
		},
		/** @param {string} path @param {number} mode */
		mkdir(path, mode) {
			const [dir, name] = above(path);
			if (dir.kids.has(name)) throw fail('EEXIST');
			dir.kids.set(name, newFolder(mode));
			changed(full(path));
		},
		/** @param {string} path */
		unlink(path) {
			const [dir, name] = above(path);
			const at = find(path);
			if (at.kids) throw fail('EISDIR');
			dir.kids.delete(name);
			changed(full(path));
		},
		/** @param {string} path */
		rmdir(path) {
			const [dir, name] = above(path);
			const at = find(path);
			if (!at.kids) throw fail('ENOTDIR');
			if (at.kids.size) throw fail('ENOTEMPTY');
			dir.kids.delete(name);
			changed(full(path));
		},
		/** @param {string} from @param {string} to */
		rename(from, to) {
			const [dir, name] = above(from), [into, as] = above(to);
			const at = find(from), there = into.kids.get(as);
			if (there === at) return;
			if (full(to).startsWith(full(from) + '/')) throw fail('EINVAL');
			if (there && at.kids && !there.kids) throw fail('ENOTDIR');
			if (there && !at.kids && there.kids) throw fail('EISDIR');
			if (there && there.kids && there.kids.size) throw fail('ENOTEMPTY');
			under(full(from), at, changed);
			dir.kids.delete(name);
			into.kids.set(as, at);
			under(full(to), at, changed);
		},
		/** @param {string} from @param {string} to */
		link(from, to) {
			const at = find(from), [into, as] = above(to);
			if (into.kids.has(as)) throw fail('EEXIST');
			if (at.kids) throw fail('EPERM');
			into.kids.set(as, at);
			changed(full(to));
		},
		/** @param {string} path */
		stat: (path) => stat(find(path)),
		/** @param {string} path */
		lstat: (path) => stat(find(path)),
		/** @param {number} number */
		fstat: (number) => stat(handle(number).at),
		fsync() {},
		/** @param {string} path @param {number} length */
		truncate(path, length) {
			cut(find(path), length);
			changed(full(path));
		},
		/** @param {number} number @param {number} length */
		ftruncate(number, length) {
			const h = handle(number);
			cut(h.at, length);
			changed(h.path);
		},
		/** @param {string} path @param {number} mode */
		chmod(path, mode) {
			const at = find(path);
			at.mode = at.mode & ~0o777 | mode & 0o777;
		},
		/** @param {number} number @param {number} mode */
		fchmod(number, mode) {
			const {at} = handle(number);
			at.mode = at.mode & ~0o777 | mode & 0o777;
		},
		/** @param {string} path @param {number} _ @param {number} written */
		utimes(path, _, written) {
			find(path).time = written * 1000;
		},
		chown() {}, fchown() {}, lchown() {},
		readlink() { throw fail('EINVAL'); }, // there are no links
		symlink() { throw fail('ENOSYS'); },
	};
	/** @type {{[name: string]: any}} */
	const fs = {constants, writeSync: (/** @type {number} */ number, /** @type {Uint8Array} */ bytes) => deeds.write(number, bytes, 0, bytes.length, null)};
	for (const [name, deed] of /** @type {[string, (...args: any[]) => unknown][]} */ (Object.entries(deeds))) {
		fs[name] = (/** @type {any[]} */ ...args) => {
			const done = args.pop();
			let out;
			try {
				out = deed(...args);
			} catch (reason) {
				if (!(reason instanceof Error && 'code' in reason)) throw reason;
				done(reason);
				return;
			}
			done(null, out);
		};
	}
	return {
		fs,
		path: {resolve: (/** @type {string[]} */ ...paths) => full(paths.join('/'))},
		// put writes a file and the folders above it.
		/** @param {string} path @param {Uint8Array<ArrayBuffer>} bytes */
		put(path, bytes) {
			const all = names(path), name = all.pop() || '';
			let at = root;
			for (const n of all) {
				const kid = at.kids.get(n) || newFolder(0o755);
				if (!kid.kids) throw fail('ENOTDIR');
				at.kids.set(n, kid);
				at = kid;
			}
			at.kids.set(name, newPlain(0o644, bytes));
			changed(full(path));
		},
		// drop takes a folder or a file away, with all that is in it.
		/** @param {string} path */
		drop(path) {
			const [dir, name] = above(path);
			under(full(path), find(path), changed);
			dir.kids.delete(name);
		},
		// get is what a file holds, or null where there is none.
		/** @param {string} path */
		get(path) {
			try {
				const at = find(path);
				return at.kids ? null : at.bytes.slice(0, at.size);
			} catch {
				return null;
			}
		},
	};
}
