import assert from 'node:assert/strict';
import {test} from 'node:test';
import {placeNames} from './names.js';

test('names of a crowded plan meet nowhere and stay in the drawing', () => {
	let seed = 1;
	const random = () => (seed = (seed * 16807) % 2147483647) / 2147483647; // Park and Miller 1988
	let named = 0;
	for (let n = 0; n < 200; n++) {
		const things = Array.from({length: 14}, (_, i) => {
			const x0 = random() * 340, y0 = random() * 300;
			return {id: String(i), name: ['chair', 'lamp stand', 'rack of cards', 'small prints bin'][i % 4], at: {x0, y0, x1: x0 + 10 + random() * 60, y1: y0 + 10 + random() * 60}};
		});
		const boxes = [...placeNames(things, 390, 360).values()].map(({lines, x, y}) => ({w: Math.max(...lines.map((l) => l.length)) * 3.3, h: lines.length * 6.5, x, y}));
		named += boxes.length;
		for (const [i, a] of boxes.entries()) {
			assert.ok(a.x >= a.w - 1e-9 && a.x <= 390 - a.w + 1e-9 && a.y >= a.h - 1e-9 && a.y <= 360 - a.h + 1e-9);
			for (const b of boxes.slice(0, i)) assert.ok(Math.abs(a.x - b.x) > a.w + b.w - 1e-9 || Math.abs(a.y - b.y) > a.h + b.h - 1e-9);
		}
	}
	assert.ok(named > 200 * 14 * 0.8, `${named} are named`);
});

test('a name stands on its thing, in one line where that has the room', () => {
	const at = (x1) => [{id: 'a', name: 'prints table', at: {x0: 100, y0: 100, x1, y1: 140}}];
	assert.deepEqual(placeNames(at(200), 390, 360).get('a'), {lines: ['prints table'], x: 150, y: 120});
	assert.deepEqual(placeNames(at(140), 390, 360).get('a'), {lines: ['prints', 'table'], x: 120, y: 120});
});
