// A QR code (ISO/IEC 18004), so that a text goes from one screen to another without a network: bytes of UTF-8, level L of error
// correction, as a screen is never torn, and versions 1 to 25, which a phone's camera still resolves on a phone's screen.

// By version: how many bytes correct the errors of each block, and how many blocks there are (table 9).
const correcting = [7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28, 28, 28, 30, 30, 26];
const blocks = [1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8, 8, 9, 9, 10, 12];

/** @typedef {{size: number, dark: boolean[][], fixed: boolean[][]}} Grid dark and fixed by row and column; fixed are modules that hold no data */

// code gives the dark modules by row and column, or null if the text is too long.
/** @type {(text: string) => boolean[][] | null} */
export function code(text) {
	const bytes = new TextEncoder().encode(text);
	const version = 1 + correcting.findIndex((_, i) => bytes.length <= room(i + 1) - (i < 9 ? 2 : 3));
	if (!version) return null;
	const grid = drawFixed(version);
	drawData(grid, withCorrection(padded(bytes, version), version));
	const masked = masks.map((_, k) => drawMasked(grid, k));
	const penalties = masked.map(penalty);
	return masked[penalties.indexOf(Math.min(...penalties))];
}

// modulesFor is how many modules hold data and corrections: all but the three finders with their formats, the alignment patterns,
// the timing lines and the version.
/** @param {number} version */
function modulesFor(version) {
	const n = Math.floor(version / 7) + 2; // alignment patterns along a side
	const all = (16 * version + 128) * version + 64;
	return version < 2 ? all : all - (25 * n - 10) * n + 55 - (version < 7 ? 0 : 36);
}

// room is how many bytes of data, with their mode and length, a version has.
/** @param {number} version */
const room = (version) => Math.floor(modulesFor(version) / 8) - correcting[version - 1] * blocks[version - 1];

// padded is mode, length, bytes, end and padding.
/** @type {(bytes: Uint8Array, version: number) => number[]} */
function padded(bytes, version) {
	const long = version < 10 ? [bytes.length] : [bytes.length >> 8, bytes.length & 255];
	const half = [4, ...[...long, ...bytes].flatMap((b) => [b >> 4, b & 15]), 0]; // four bits each
	const out = [];
	for (let i = 0; i < half.length; i += 2) out.push(half[i] << 4 | half[i + 1]);
	for (let pad = 0xec; out.length < room(version); pad ^= 0xec ^ 0x11) out.push(pad);
	return out;
}

// times multiplies in the field of 256 with the polynomial x⁸ + x⁴ + x³ + x² + 1.
/** @param {number} a @param {number} b */
function times(a, b) {
	let out = 0;
	for (let i = 7; i >= 0; i--) out = out << 1 ^ (out >> 7) * 0x11d ^ (b >> i & 1) * a;
	return out;
}

// withCorrection splits data into blocks, those that are a byte longer last, adds to each its Reed-Solomon remainder, and takes
// a byte of each in turn.
/** @type {(data: number[], version: number) => number[]} */
function withCorrection(data, version) {
	const n = blocks[version - 1], degree = correcting[version - 1];
	let divisor = [...Array(degree - 1).fill(0), 1]; // without its highest power, which is 1
	for (let i = 0, root = 1; i < degree; i++, root = times(root, 2)) divisor = divisor.map((d, j) => times(d, root) ^ (divisor[j + 1] || 0));
	const short = Math.floor(data.length / n), longer = data.length % n;
	const parts = Array.from({length: n}, (_, i) => data.slice(i * short + Math.max(0, i - n + longer), (i + 1) * short + Math.max(0, i + 1 - n + longer)));
	const checks = parts.map((part) => part.reduce((rest, b) => {
		const factor = b ^ rest[0];
		return divisor.map((d, j) => (rest[j + 1] || 0) ^ times(d, factor));
	}, Array(degree).fill(0)));
	/** @type {(lists: number[][], length: number) => number[]} */
	const inTurn = (lists, length) => Array.from({length}, (_, i) => lists.filter((l) => i < l.length).map((l) => l[i])).flat();
	return [...inTurn(parts, short + 1), ...inTurn(checks, degree)];
}

/** @type {(version: number) => Grid} */
function drawFixed(version) {
	const size = 4 * version + 17;
	const square = () => Array.from({length: size}, () => Array(size).fill(false));
	const grid = {size, dark: square(), fixed: square()};
	for (let i = 0; i < size; i++) for (const [x, y] of [[6, i], [i, 6]]) set(grid, x, y, i % 2 === 0); // timing
	for (const [x, y] of [[3, 3], [size - 4, 3], [3, size - 4]]) rings(grid, x, y, 4, [0, 1, 3]); // finders with their clear border
	const n = version < 2 ? 0 : Math.floor(version / 7) + 2;
	const step = Math.floor((version * 8 + n * 3 + 5) / (n * 4 - 4)) * 2;
	const centres = Array.from({length: n}, (_, i) => (i === 0 ? 6 : size - 7 - (n - 1 - i) * step));
	centres.forEach((x, i) => centres.forEach((y, j) => {
		if (!(i === 0 && j === 0 || i === 0 && j === n - 1 || i === n - 1 && j === 0)) rings(grid, x, y, 2, [0, 2]);
	}));
	drawFormat(grid, 0); // to take its modules; each mask has its own
	if (version >= 7) drawVersion(grid, version);
	return grid;
}

/** @param {Grid} grid @param {number} x @param {number} y @param {boolean} dark */
function set(grid, x, y, dark) {
	grid.dark[y][x] = dark;
	grid.fixed[y][x] = true;
}

// rings are squares about a centre; those of the radii given are dark.
/** @param {Grid} grid @param {number} x @param {number} y @param {number} radius @param {number[]} dark */
function rings(grid, x, y, radius, dark) {
	for (let i = -radius; i <= radius; i++) for (let j = -radius; j <= radius; j++) {
		if (x + i < 0 || x + i >= grid.size || y + j < 0 || y + j >= grid.size) continue;
		set(grid, x + i, y + j, dark.includes(Math.max(Math.abs(i), Math.abs(j))));
	}
}

// remainder is value divided by a polynomial of that degree: what corrects formats and versions.
/** @param {number} value @param {number} divisor @param {number} degree */
function remainder(value, divisor, degree) {
	let rest = value;
	for (let i = 0; i < degree; i++) rest = rest << 1 ^ (rest >> degree - 1) * divisor;
	return rest;
}

// drawFormat writes level and mask twice, and the one module that is always dark.
/** @param {Grid} grid @param {number} mask */
function drawFormat(grid, mask) {
	const level = 1; // L
	const value = level << 3 | mask;
	const bits = (value << 10 | remainder(value, 0x537, 10)) ^ 0x5412;
	const n = grid.size;
	for (let i = 0; i < 15; i++) {
		const dark = (bits >> i & 1) === 1;
		if (i < 8) set(grid, 8, i < 6 ? i : i + 1, dark);
		else set(grid, i === 8 ? 7 : 14 - i, 8, dark);
		if (i < 8) set(grid, n - 1 - i, 8, dark);
		else set(grid, 8, n - 15 + i, dark);
	}
	set(grid, 8, n - 8, true);
}

/** @param {Grid} grid @param {number} version */
function drawVersion(grid, version) {
	const bits = version << 12 | remainder(version, 0x1f25, 12);
	for (let i = 0; i < 18; i++) {
		const a = grid.size - 11 + i % 3, b = Math.floor(i / 3), dark = (bits >> i & 1) === 1;
		set(grid, a, b, dark);
		set(grid, b, a, dark);
	}
}

// drawData fills what is free, two columns at a time from the right, up and down in turn.
/** @param {Grid} grid @param {number[]} bytes */
function drawData(grid, bytes) {
	let at = 0;
	for (let right = grid.size - 1; right > 0; right -= right === 8 ? 3 : 2) { // the column of the timing is passed over
		const up = (right + 1 & 2) === 0;
		for (let k = 0; k < grid.size; k++) for (const x of [right, right - 1]) {
			const y = up ? grid.size - 1 - k : k;
			if (grid.fixed[y][x]) continue;
			grid.dark[y][x] = (bytes[at >> 3] >> 7 - (at & 7) & 1) === 1;
			at++;
		}
	}
}

/** @type {((x: number, y: number) => number)[]} */
const masks = [
	(x, y) => (x + y) % 2, (_, y) => y % 2, (x) => x % 3, (x, y) => (x + y) % 3, (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2,
	(x, y) => x * y % 2 + x * y % 3, (x, y) => (x * y % 2 + x * y % 3) % 2, (x, y) => ((x + y) % 2 + x * y % 3) % 2,
];

/** @param {Grid} grid @param {number} k */
function drawMasked(grid, k) {
	const {size, fixed} = grid;
	const dark = grid.dark.map((row, y) => row.map((d, x) => d !== (!fixed[y][x] && masks[k](x, y) === 0)));
	drawFormat({size, dark, fixed}, k);
	return dark;
}

// penalty is how hard a mask makes a code to find and to read: long runs, squares of one colour, what looks like a finder (the
// light border counts), and more of one colour than of the other.
/** @param {boolean[][]} dark */
function penalty(dark) {
	const n = dark.length;
	const lines = dark.flatMap((row, y) => [row, dark.map((other) => other[y])]).map((l) => l.map(Number).join(''));
	let out = 0;
	for (const l of lines) {
		for (const run of l.match(/0{5,}|1{5,}/g) || []) out += run.length - 2;
		out += 40 * finders(l);
	}
	for (let y = 1; y < n; y++) for (let x = 1; x < n; x++) {
		const d = dark[y][x];
		if (dark[y - 1][x] === d && dark[y][x - 1] === d && dark[y - 1][x - 1] === d) out += 3;
	}
	const share = dark.flat().filter(Boolean).length / (n * n);
	return out + 10 * (Math.ceil(Math.abs(share - 0.5) * 20) - 1);
}

// finders counts, in a row or column, dark and light as 1:1:3:1:1 with four times as much light on one side.
/** @param {string} line */
function finders(line) {
	const border = '0'.repeat(line.length);
	const runs = ((border + line + border).match(/0+|1+/g) || []).map((r) => r.length);
	let out = 0;
	for (let i = 5; i < runs.length; i += 2) {
		const [before, a, b, c, d, e, after] = runs.slice(i - 5, i + 2);
		if (b !== a || c !== 3 * a || d !== a || e !== a) continue;
		if (before >= 4 * a && after >= a) out++;
		if (after >= 4 * a && before >= a) out++;
	}
	return out;
}
