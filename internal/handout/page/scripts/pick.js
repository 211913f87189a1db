// What a ray from the eye meets first (Möller and Trumbore, "Fast, minimum storage ray/triangle intersection", 1997).
import {near} from './camera.js';
/** @import {Part, Surface} from './model.js' */

/** @type {(surfaces: (Surface & {part: Part})[], from: number[], d: number[]) => {away: number, part: Part | null, point: number[]}} */
export function firstMet(surfaces, from, d) {
	/** @type {{away: number, part: Part | null, point: number[]}} */
	let best = {away: Infinity, part: null, point: []};
	for (const s of surfaces) {
		const p = s.at, c = s.corners;
		for (let i = 0; i < c.length; i += 3) {
			const a = 3 * c[i], b = 3 * c[i + 1], e = 3 * c[i + 2];
			const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
			const vx = p[e] - p[a], vy = p[e + 1] - p[a + 1], vz = p[e + 2] - p[a + 2];
			const hx = d[1] * vz - d[2] * vy, hy = d[2] * vx - d[0] * vz, hz = d[0] * vy - d[1] * vx;
			const det = ux * hx + uy * hy + uz * hz;
			if (s.twoSided ? Math.abs(det) < 1e-12 : det < 1e-12) continue;
			const sx = from[0] - p[a], sy = from[1] - p[a + 1], sz = from[2] - p[a + 2];
			const u = (sx * hx + sy * hy + sz * hz) / det;
			if (u < 0 || u > 1) continue;
			const qx = sy * uz - sz * uy, qy = sz * ux - sx * uz, qz = sx * uy - sy * ux;
			const v = (d[0] * qx + d[1] * qy + d[2] * qz) / det;
			if (v < 0 || u + v > 1) continue;
			const t = (vx * qx + vy * qy + vz * qz) / det;
			if (t > near && t < best.away) best = {away: t, part: s.part, point: []};
		}
	}
	if (best.part) best.point = [0, 1, 2].map((k) => from[k] + d[k] * best.away);
	return best;
}

// owner is the work or other thing that a part belongs to, looking from it upwards.
/** @type {(part: Part | null, ids: {has(id: string): boolean}) => string | null} */
export function owner(part, ids) {
	for (let p = part; p; p = p.above) if (ids.has(p.id)) return p.id;
	return null;
}

