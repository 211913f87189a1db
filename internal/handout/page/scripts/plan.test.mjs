// The plan as it goes, against Go's schedules and by hand.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import {awaited, early, forecast, nextOf} from './plan.js';

const golden = JSON.parse(readFileSync(process.env.GOLDEN));
const fresh = (steps) => steps.map((s) => ({...s, done: null, open: false}));

test('before anything is ticked, steps begin and end as they are planned', () => {
	assert.ok(golden.schedules.length > 20);
	for (const steps of golden.schedules) assert.deepEqual(forecast(fresh(steps), 0), steps.map((s) => [s.start, s.end]));
});

// A wall by both, 10 min; then each one thing, 5 and 20 min; then both again, 5 min.
const both = ['Odile', 'Bram'];
const small = () => fresh([
	{number: 1, minutes: 10, after: [], who: both, once: false},
	{number: 2, minutes: 5, after: [1], who: ['Odile'], once: false},
	{number: 3, minutes: 20, after: [1], who: ['Bram'], once: false},
	{number: 4, minutes: 5, after: [2, 3], who: both, once: false},
	{number: 5, minutes: 3, after: [1], who: ['Odile'], once: false},
]);

test('what is ticked early or late moves what follows', () => {
	const steps = small();
	assert.deepEqual(forecast(steps, 0).map((p) => p[1]), [10, 15, 30, 35, 38]);
	steps[0].done = 12;
	assert.deepEqual(forecast(steps, 12).map((p) => p[1]), [12, 17, 32, 37, 40]);
	steps[2].open = true; // Bram should be done at 32, and is seen not to be at 40
	assert.deepEqual(forecast(steps, 40).map((p) => p[1]), [12, 17, 40, 45, 48]);
});

test('whom one waits for', () => {
	const steps = small();
	assert.equal(nextOf(steps, 'Odile').number, 1);
	assert.deepEqual(awaited(steps, steps[0], 'Odile'), []);
	steps[0].done = 10;
	steps[1].done = 15;
	assert.equal(nextOf(steps, 'Odile').number, 4);
	assert.deepEqual(awaited(steps, steps[3], 'Odile').map((s) => s.number), [3]);
	assert.deepEqual(early(steps, 'Odile', 20).map((s) => s.number), [5]);
	assert.deepEqual(early(steps, 'Odile', 2), [], 'too long');
	steps[4].once = true;
	assert.deepEqual(early(steps, 'Odile', 20), [], 'at once after another');
	for (const s of steps) s.done ??= 30;
	assert.equal(nextOf(steps, 'Bram'), undefined);
});
