// Codes against those of the library that draws them on paper (github.com/piglig/go-qr), module for module.
import assert from 'node:assert/strict';
import {readFileSync} from 'node:fs';
import {test} from 'node:test';
import {code} from './code.js';

const golden = JSON.parse(readFileSync(process.env.GOLDEN));

test('codes are those of Go, of every version', () => {
	assert.deepEqual([...new Set(golden.codes.map((c) => (c.rows.length - 17) / 4))], Array.from({length: 25}, (_, i) => i + 1));
	for (const {text, rows} of golden.codes) assert.deepEqual(code(text).map((row) => row.map(Number).join('')), rows, `${text.length} characters`);
});

test('what is too long has none', () => {
	assert.equal(code('a'.repeat(1273)).length, 117); // the bytes of 25-L (ISO/IEC 18004, table 7)
	assert.equal(code('a'.repeat(1274)), null);
});
