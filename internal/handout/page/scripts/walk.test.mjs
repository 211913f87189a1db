// The walk's arithmetic. Values come from outside where a source is named.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import {lookAt, matrix, rayThrough, steepest} from './camera.js';
import {firstMet, owner} from './pick.js';
import {before, middle, ribbon} from './shapes.js';
import {walkBy} from './walk.js';

const close = (is, want, within, what) => assert.ok(Math.abs(is - want) <= within, `${what}: ${is}, want ${want}`);

// By the camera matrix K [R | t] (Hartley and Zisserman, 2nd ed., equation 6.8), worked out in another language: see package camera.
test('places in pictures', () => {
	let held = 0;
	for (const g of JSON.parse(readFileSync(process.env.CAMERA))) {
		if (!g.level || g.aspect < 1) continue;
		const eye = {x: g.eye[0], y: g.eye[1], z: g.eye[2], yaw: 0, shift: 0, half: Math.tan(g.across / 2)};
		lookAt(eye, g.look);
		const m = matrix(eye, g.aspect);
		for (const s of g.seen) {
			const p = [...s.point, 1], row = (i) => p.reduce((sum, v, k) => sum + m[4 * k + i] * v, 0);
			close(row(0) / row(3), s.x, 1e-5, g.name);
			close(row(1) / row(3), s.y, 1e-5, g.name);
			close(row(3), s.depth, 1e-5, g.name);
			const ray = rayThrough(eye, g.aspect, s.x, s.y);
			g.eye.forEach((v, k) => close(v + ray[k] * s.depth, s.point[k], 1e-9, g.name));
			held++;
		}
	}
	assert.equal(held, 12);
});

test('nobody looks steeper than the picture can be shifted', () => {
	const eye = {x: 0, y: 1.5, z: 0, yaw: 0, shift: 0, half: 1};
	lookAt(eye, [0, -100, -1]);
	assert.equal(eye.shift, -steepest);
});

// A square of 2 m at z = -3, facing the eye, and one behind it.
const square = (z, twoSided) => ({at: [-1, 0, z, 1, 0, z, 1, 2, z, -1, 2, z], corners: [0, 1, 2, 0, 2, 3], twoSided, part: {id: `at ${z}`, above: {id: 'wall', above: null}}});

test('a ray meets the first that faces it', () => {
	const met = firstMet([square(-5, false), square(-3, false)], [0, 1, 0], [0.1, 0, -1]);
	assert.equal(met.part.id, 'at -3');
	met.point.forEach((v, k) => close(v, [0.3, 1, -3][k], 1e-12, 'point'));
	assert.equal(firstMet([square(-3, false)], [0, 1, -6], [0, 0, 1]).part, null, 'from behind');
	assert.equal(firstMet([square(-3, true)], [0, 1, -6], [0, 0, 1]).part.id, 'at -3', 'two sides');
	assert.equal(firstMet([square(-3, true)], [0, 1, 0], [0.4, 0, -1]).part, null, 'past it');
	assert.equal(owner(met.part, new Set(['wall'])), 'wall');
	assert.equal(owner(met.part, new Set()), null);
});

const table = [[-1, -1], [1, -1], [1, 1], [-1, 1]]; // 2 m square round the origin
const girth = 0.22; // as in walk.js

test('a person stops before a thing, and slides along it', () => {
	const ahead = {x: 0, z: 3};
	assert.ok(walkBy(ahead, [table], 0, -5));
	close(ahead.z, 1 + girth, 0.05, 'stops');
	assert.ok(ahead.z >= 1 + girth - 1e-6);
	const aslant = {x: 0, z: 1 + girth};
	walkBy(aslant, [table], 0.5, -0.2);
	assert.ok(aslant.x > 0.4 && aslant.z >= 1 + girth - 1e-6, 'slides');
	const free = {x: 0, z: 3};
	walkBy(free, [table], 0.3, 0.4);
	close(free.x, 0.3, 1e-9, 'free');
	close(free.z, 3.4, 1e-9, 'free');
	const within = {x: 0.9, z: 0};
	assert.ok(walkBy(within, [table], 2, 0), 'whoever is within a thing gets out');
	assert.ok(within.x > 2);
});

test('shapes', () => {
	const line = ribbon([[0, 0], [0, -2]], 0.5, 0.01);
	assert.equal(line.length, 18);
	let area = 0; // of its two triangles, by the cross product
	for (let i = 0; i < 18; i += 9) area += Math.abs((line[i + 3] - line[i]) * (line[i + 8] - line[i + 2]) - (line[i + 6] - line[i]) * (line[i + 5] - line[i + 2])) / 2;
	close(area, 2, 1e-12, 'area');
	const face = [[0, 0, 0], [1, 0, 0], [1, 1, 0]];
	assert.deepEqual(before(face, [0.5, 0.5, 0]), [0.5, 0.5, 0.004]);
	assert.deepEqual(middle({surfaces: [square(-5), square(-3)]}), [0, 1, -4]);
});
