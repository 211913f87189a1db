// Shapes that the walk shows besides the booth.
/** @import {Part} from './model.js' */

// ribbon is a line on the floor as triangles, half metres to each side, at a height.
/** @type {(line: [number, number][], half: number, y: number) => number[]} */
export function ribbon(line, half, y) {
	const out = [];
	for (let i = 0; i + 1 < line.length; i++) {
		const [ax, az] = line[i], [bx, bz] = line[i + 1];
		const l = Math.hypot(bx - ax, bz - az) || 1;
		const nx = (bz - az) / l * half, nz = -(bx - ax) / l * half;
		out.push(ax - nx, y, az - nz, ax + nx, y, az + nz, bx + nx, y, bz + nz, ax - nx, y, az - nz, bx + nx, y, bz + nz, bx - nx, y, bz - nz);
	}
	return out;
}

// before is a point of a work's face, brought forward a little so that the work itself does not hide it.
/** @type {(face: number[][], p: number[]) => number[]} */
export function before(face, p) {
	const [a, b, c] = face;
	const u = [0, 1, 2].map((k) => b[k] - a[k]), v = [0, 1, 2].map((k) => c[k] - a[k]);
	const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
	const l = Math.hypot(...n) || 1;
	return p.map((x, k) => x + 0.004 * n[k] / l);
}

// middle is the middle of a part's bounds.
/** @type {(part: Part) => number[]} */
export function middle(part) {
	const lo = [Infinity, Infinity, Infinity], hi = [-Infinity, -Infinity, -Infinity];
	for (const s of part.surfaces) s.at.forEach((v, i) => {
		lo[i % 3] = Math.min(lo[i % 3], v);
		hi[i % 3] = Math.max(hi[i % 3], v);
	});
	return lo.map((v, k) => (v + hi[k]) / 2);
}

