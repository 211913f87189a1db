// A visitor's eye. As in the pictures it is always level: to look up or down, the picture is shifted, so that upright edges
// stay upright. yaw 0 looks to the back of the booth and grows to the right; shift is a slope.
/** @typedef {{x: number, y: number, z: number, yaw: number, shift: number, half: number}} Eye half is the slope of half the angle across */

export const near = 0.05;
const far = 200;
export const steepest = 1.2;

// A view made for a picture 16 wide and 9 high keeps its width in a higher window and its height in a wider one.
/** @type {(eye: Eye, aspect: number) => [number, number]} */
export function halves(eye, aspect) {
	const across = eye.half * Math.max(1, aspect * 9 / 16);
	return [across, across / aspect];
}

/** @param {Eye} eye */
export function axes(eye) {
	const s = Math.sin(eye.yaw), c = Math.cos(eye.yaw);
	return {ahead: [s, -c], right: [c, s]};
}

// matrix takes points of the booth to the window, column by column.
/** @param {Eye} eye @param {number} aspect */
export function matrix(eye, aspect) {
	const [wide, high] = halves(eye, aspect);
	const {ahead, right} = axes(eye);
	const a = (far + near) / (far - near), b = -2 * far * near / (far - near);
	const rows = [
		[right[0] / wide, 0, right[1] / wide],
		[-eye.shift * ahead[0] / high, 1 / high, -eye.shift * ahead[1] / high],
		[a * ahead[0], 0, a * ahead[1]],
		[ahead[0], 0, ahead[1]],
	];
	const m = new Float32Array(16);
	rows.forEach((r, i) => {
		m[i] = r[0];
		m[4 + i] = r[1];
		m[8 + i] = r[2];
		m[12 + i] = -(r[0] * eye.x + r[1] * eye.y + r[2] * eye.z) + (i === 2 ? b : 0);
	});
	return m;
}

// lookAt turns the eye towards a point.
/** @param {Eye} eye @param {number[]} p */
export function lookAt(eye, p) {
	const dx = p[0] - eye.x, dz = p[2] - eye.z;
	const away = Math.max(0.05, Math.hypot(dx, dz));
	eye.yaw = Math.atan2(dx, -dz);
	eye.shift = Math.max(-steepest, Math.min(steepest, (p[1] - eye.y) / away));
}

// rayThrough is the direction of a place in the window, from -1 to 1 to the right and up.
/** @param {Eye} eye @param {number} aspect @param {number} nx @param {number} ny */
export function rayThrough(eye, aspect, nx, ny) {
	const [wide, high] = halves(eye, aspect);
	const {ahead, right} = axes(eye);
	return [ahead[0] + right[0] * nx * wide, ny * high + eye.shift, ahead[1] + right[1] * nx * wide];
}

