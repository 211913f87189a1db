import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import {lengthWords, percent, version} from './words.js';

const golden = JSON.parse(readFileSync(process.env.GOLDEN));

test('lengths are written as Go writes them', () => {
	assert.ok(golden.lengths.length > 500);
	for (const [metres, inches, centimetres] of golden.lengths) {
		assert.equal(lengthWords(metres, 'in'), inches, `${metres} m`);
		assert.equal(lengthWords(metres, 'cm'), centimetres, `${metres} m`);
	}
});

test('page and program speak one version', () => assert.equal(version, golden.version));
test('shares', () => assert.deepEqual([0, 0.005, 0.994, 1].map(percent), ['0 %', '1 %', '99 %', '100 %']));
