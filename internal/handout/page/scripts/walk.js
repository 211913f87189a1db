// Walking on the floor: a person is a disc that stays clear of the outlines of things, and slides along them.
const girth = 0.22; // metres from a person's middle to their side
const stride = 0.04; // metres between two looks at the floor

/** @typedef {[number, number][]} Outline x and z of its corners */
/** @typedef {{x: number, z: number}} Place */

// nearest is the point of a convex outline nearest to a place, how far it is, and whether the place is inside.
/** @param {Outline} outline @param {number} x @param {number} z */
function nearest(outline, x, z) {
	let best = {away: Infinity, px: x, pz: z, inside: false};
	let turns = 0;
	const n = outline.length;
	for (let i = 0; i < n; i++) {
		const [ax, az] = outline[i], [bx, bz] = outline[(i + 1) % n];
		const ex = bx - ax, ez = bz - az, l = ex * ex + ez * ez;
		const t = l ? Math.max(0, Math.min(1, ((x - ax) * ex + (z - az) * ez) / l)) : 0;
		const px = ax + t * ex, pz = az + t * ez, away = Math.hypot(x - px, z - pz);
		if (away < best.away) best = {away, px, pz, inside: false};
		turns += Math.sign(ex * (z - az) - ez * (x - ax));
	}
	best.inside = n > 2 && Math.abs(turns) === n;
	if (best.inside) best.away = -best.away;
	return best;
}

// allowed reports whether a step to a place brings the person no nearer to anything that they are too near to.
/** @type {(floor: Outline[], x: number, z: number, fromX: number, fromZ: number) => boolean} */
function allowed(floor, x, z, fromX, fromZ) {
	return floor.every((o) => {
		const away = nearest(o, x, z).away;
		return away >= girth - 1e-6 || away >= nearest(o, fromX, fromZ).away;
	});
}

// walkBy moves the eye by a way on the floor and reports whether it moved.
/** @type {(eye: Place, floor: Outline[], dx: number, dz: number) => boolean} */
export function walkBy(eye, floor, dx, dz) {
	const steps = Math.ceil(Math.hypot(dx, dz) / stride);
	const startX = eye.x, startZ = eye.z;
	for (let i = 0; i < steps; i++) {
		let x = eye.x + dx / steps, z = eye.z + dz / steps;
		for (let k = 0; k < 3; k++) {
			for (const o of floor) {
				const p = nearest(o, x, z);
				if (p.away >= girth || p.inside || p.away <= 0 || nearest(o, eye.x, eye.z).away < 0) continue;
				x = p.px + (x - p.px) * girth / p.away;
				z = p.pz + (z - p.pz) * girth / p.away;
			}
		}
		if (Math.hypot(x - eye.x, z - eye.z) < stride / 50 || !allowed(floor, x, z, eye.x, eye.z)) break;
		eye.x = x;
		eye.z = z;
	}
	return Math.hypot(eye.x - startX, eye.z - startZ) > 1e-4;
}

