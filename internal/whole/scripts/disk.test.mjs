// The disk in memory does what Node's own does: the same deeds, chosen by chance, on both.
import assert from 'node:assert/strict';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {test} from 'node:test';
import {sevenBits} from './bits.js';
import {makeDisk} from './disk.js';

// chance is a xorshift (Marsaglia, "Xorshift RNGs", 2003): the same numbers every time.
function chance(seed) {
	let x = seed;
	return (n) => {
		x ^= x << 13;
		x ^= x >>> 17;
		x ^= x << 5;
		return (x >>> 0) % n;
	};
}

const call = (f, ...args) => new Promise((done) => f(...args, (wrong, out) => done(wrong ? wrong.code : out)));
const {O_RDONLY, O_RDWR, O_CREAT, O_EXCL, O_TRUNC, O_APPEND} = fs.constants;

const isThere = (file) => (fs.existsSync(file) ? fs.statSync(file) : null);

async function same(seed) {
	const real = fs.mkdtempSync(path.join(os.tmpdir(), 'disk-')), told = new Set();
	const disk = makeDisk((p) => told.add(p));
	const n = chance(seed), names = ['/a', '/b', '/a/c', '/a/d', '/b/c', '/a/c/e'], open = [];
	const kind = (s) => (typeof s === 'object' && s ? [s.isDirectory(), s.isDirectory() ? 0 : s.size] : s);
	const bytes = () => new TextEncoder().encode('herons and reeds'.slice(0, n(16)));
	for (let i = 0; i < 400; i++) {
		const a = names[n(names.length)], b = names[n(names.length)], what = n(11), length = n(20);
		const flags = [O_RDONLY, O_RDWR | O_CREAT, O_RDWR | O_CREAT | O_TRUNC, O_RDWR | O_CREAT | O_EXCL, O_RDWR | O_APPEND][n(5)], data = bytes();
		const pick = open.length ? open[n(open.length)] : null;
		const on = async (side, root) => {
			const f = side === 'real' ? fs : disk.fs;
			switch (what) {
			case 0: return call(f.mkdir, root + a, 0o755);
			case 1: return call(f.unlink, root + a);
			case 2: return call(f.rmdir, root + a);
			case 3: return Boolean(await call(f.rename, root + a, root + b)); // which of two reasons it is refused for differs between systems
			case 4: return call(f.link, root + a, root + b);
			case 5: { const r = await call(f.readdir, root + a); return Array.isArray(r) ? r.sort() : r; }
			case 6: return call(f.truncate, root + a, length);
			case 7: return pick && call(f.write, pick[side], data, 0, data.length, length % 2 ? null : length);
			case 8: {
				if (!pick) return null;
				const into = new Uint8Array(20), got = await call(f.read, pick[side], into, 0, 20, length % 2 ? null : length);
				return [got, ...into];
			}
			case 9: return call(f.open, root + a, flags, 0o644);
			default: return kind(await call(f.stat, root + a));
			}
		};
		if (what === 1 && isThere(real + a)?.isDirectory()) continue; // Linux and POSIX differ in the code
		const want = await on('real', real), got = await on('ours', '');
		if (what === 9 && typeof want === 'number' && typeof got === 'number') open.push({real: want, ours: got});
		else assert.deepEqual(got, want, `seed ${seed}, deed ${i}: ${what} ${a} ${b}`);
	}
	for (const o of open) fs.closeSync(o.real);
	for (const name of names) {
		const s = isThere(real + name);
		assert.deepEqual(disk.get(name), s && s.isFile() ? new Uint8Array(fs.readFileSync(real + name)) : null, name);
	}
	fs.rmSync(real, {recursive: true});
	return told.size;
}

test('it does what a disk does', async () => {
	let told = 0;
	for (let seed = 1; seed <= 8; seed++) told += await same(seed * 2654435761 | 0);
	assert.ok(told > 20);
});

test('put, drop and get, and who is told', () => {
	const told = [];
	const disk = makeDisk((p) => told.push(p));
	disk.put('/booths/demo/booth.yaml', new Uint8Array([1, 2]));
	assert.deepEqual(told, ['/booths/demo/booth.yaml']);
	assert.deepEqual([...disk.get('/booths/../booths/demo/booth.yaml')], [1, 2]);
	disk.drop('/booths/demo');
	assert.equal(disk.get('/booths/demo/booth.yaml'), null);
	assert.deepEqual(told.slice(1), ['/booths/demo', '/booths/demo/booth.yaml']);
	assert.equal(disk.path.resolve('/a', 'b', '../c'), '/a/c');
});

test('seven bits a character', () => {
	const bytes = Uint8Array.from({length: 1000}, (_, i) => i * 37 & 255);
	let text = '', held = 0, bits = 0;
	const add = (c) => (text += String.fromCharCode([0, 13, 60].includes(c) ? c + 256 : c)); // as packed in Go
	for (const b of bytes) {
		held = held << 8 | b;
		for (bits += 8; bits >= 7; held &= (1 << bits) - 1) add(held >> (bits -= 7));
	}
	if (bits) add(held << 7 - bits & 127);
	assert.deepEqual(sevenBits(text).subarray(0, 1000), bytes);
});
