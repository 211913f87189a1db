import assert from 'node:assert/strict';
import {test} from 'node:test';
import {caught} from './catch.js';

const work = (left, wide, centre = 1.5, high = 0.4) => ({wall: 'wall', left, wide, centre, high, hooks: []});
const wall = {id: 'wall', wide: 3, low: 0.2, high: 2, hold: 'panel', spacing: 0};
const usual = 1.45, near = 0.05;
const alike = (is, want) => assert.ok(Math.abs(is - want) < 1e-9, `${is} is not ${want}`);

test('the centre line', () => {
	const got = caught(work(0, 0.5), wall, [], usual, 0.9, 1.42, near);
	alike(got.y, usual);
	assert.deepEqual([got.x, got.line, got.column], [0.9, usual, null]);
	alike(caught(work(0, 0.5), wall, [work(2, 0.5, 1.1)], usual, 0.9, 1.12, near).y, 1.1);
});

test('far from anything it stays where it is held', () => {
	assert.deepEqual(caught(work(0, 0.5), wall, [work(2, 0.5)], usual, 0.61, 0.71, near), {x: 0.61, y: 0.71, line: null, column: null});
});

test('it stays on the wall', () => {
	alike(caught(work(0, 0.5), wall, [], usual, -0.3, 1, near).x, 0);
	alike(caught(work(0, 0.5), wall, [], usual, 2.8, 1, near).x, 2.5);
});

test('upper and lower edges', () => {
	const tall = [work(0.2, 0.5, 1.2, 0.8)];
	alike(caught(work(0, 0.5), wall, tall, usual, 2, 1.38, near).y, 1.4);
	alike(caught(work(0, 0.5), wall, tall, usual, 2, 1.02, near).y, 1);
});

test('a neighbour above: its edges and its middle', () => {
	const above = [work(0.7, 0.6, 1.8, 0.3)];
	for (const [held, want] of [[0.68, 0.7], [0.88, 0.9], [0.82, 0.8]]) alike(caught(work(0, 0.4), wall, above, usual, held, 1, near).x, want);
});

test('even spaces: between two, between one and the end, on with the space of others, and the middle of the wall', () => {
	const pair = [work(0.2, 0.4), work(2.2, 0.4)];
	alike(caught(work(0, 0.6), wall, pair, usual, 1.12, 1.5, near).x, 1.1);
	alike(caught(work(0, 0.4), wall, [work(1, 0.4)], usual, 0.33, 1.5, near).x, 0.3);
	const row = [work(0.2, 0.4), work(0.73, 0.4)]; // 0.13 apart
	alike(caught(work(0, 0.5), wall, row, usual, 1.28, 1.5, near).x, 1.26);
	alike(caught(work(0, 0.5), wall, [work(2.1, 0.4), work(2.58, 0.4)], usual, 1.53, 1.5, near).x, 1.52);
	alike(caught(work(0, 0.5), wall, [], usual, 1.27, 1.5, near).x, 1.25);
});

test('a mesh: the highest and the lowest wire that its hooks reach, and only on the wall that it hangs on', () => {
	const mesh = {...wall, hold: 'mesh', spacing: 0.05};
	const w = {...work(0, 0.5, 1.5), hooks: [{x: 0.25, y: 1.6}]}; // 0.1 above its centre
	alike(caught(w, mesh, [], usual, 1, 1.93, near).y, 1.9);
	alike(caught(w, mesh, [], usual, 1, 0.07, near).y, 0.1);
	assert.equal(caught({...w, wall: 'another'}, mesh, [], usual, 1, 1.93, near).line, null);
});

test('chains: in every space the first and the last that its hook can have', () => {
	const chains = {...wall, hold: 'chains', spacing: 0.3};
	const w = {...work(0.5, 0.5), hooks: [{x: 0.75, y: 1.6}]}; // 0.25 from its left edge
	alike(caught(w, chains, [], usual, 0.03, 1.5, near).x, 0.05);
	alike(caught(w, chains, [], usual, 2.47, 1.5, near).x, 2.45);
	const other = [work(1.2, 0.4)];
	alike(caught(w, chains, other, usual, 0.66, 1.5, near).x, 0.65); // the chain at 0.9: that at 1.2 is too near to the other
	alike(caught(w, chains, other, usual, 1.83, 1.5, near).x, 1.85); // and the one at 2.1, behind it
});
