// A .glb that is written here by hand, after glTF 2.0 (ISO/IEC 12113), sections 3.6 and 4.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import {readModel} from './model.js';

function glb(json, binary) {
	const text = new TextEncoder().encode(JSON.stringify(json).padEnd(Math.ceil(JSON.stringify(json).length / 4) * 4));
	const bytes = new Uint8Array(12 + 8 + text.length + 8 + binary.length), view = new DataView(bytes.buffer);
	[0x46546c67, 2, bytes.length, text.length, 0x4e4f534a].forEach((v, i) => view.setUint32(4 * i, v, true));
	bytes.set(text, 20);
	view.setUint32(20 + text.length, binary.length, true);
	view.setUint32(24 + text.length, 0x004e4942, true);
	bytes.set(binary, 28 + text.length);
	return bytes;
}

const places = new Float32Array([0, 0, 0, 1, 0, 0, 0, 1, 0]);
const light = new Uint16Array([65535, 0, 0, 65535, 0, 65535, 0, 65535, 0, 0, 30000, 65535]);
const on = new Uint8Array([0, 0, 255, 0, 0, 51, 0, 0]); // normalized, and one more to be 4 bytes
const corners = new Uint16Array([0, 1, 2, 0]);
const image = new Uint8Array([1, 2, 3, 4]);
const pieces = [places, light, on, corners, image].map((a) => new Uint8Array(a.buffer));
let from = 0;
const views = pieces.map((p) => {
	const v = {buffer: 0, byteOffset: from, byteLength: p.length};
	from += p.length;
	return v;
});
const binary = new Uint8Array(from);
pieces.forEach((p, i) => binary.set(p, views[i].byteOffset));
const file = () => glb({
	asset: {version: '2.0'}, scene: 0, scenes: [{nodes: [0]}],
	nodes: [{name: 'wall', translation: [1, 0, -3], children: [1]}, {name: 'work', translation: [0, 1, 0], mesh: 0, extras: {name: 'a work'}}],
	meshes: [{primitives: [{attributes: {POSITION: 0, COLOR_0: 1, TEXCOORD_0: 2}, indices: 3, material: 0}, {attributes: {POSITION: 0, COLOR_0: 1}, indices: 3, material: 1}]}],
	materials: [{doubleSided: true, pbrMetallicRoughness: {baseColorFactor: [0.5, 1, 0.1, 1], baseColorTexture: {index: 1}}}, {pbrMetallicRoughness: {}}],
	textures: [{source: 0, sampler: 0}, {source: 1, sampler: 1}], samplers: [{wrapS: 33071}, {wrapS: 10497}],
	images: [{uri: 'image/1'}, {bufferView: 4, mimeType: 'image/jpeg'}],
	accessors: [{bufferView: 0, count: 3, type: 'VEC3', componentType: 5126}, {bufferView: 1, count: 3, type: 'VEC4', componentType: 5123, normalized: true},
		{bufferView: 2, count: 3, type: 'VEC2', componentType: 5121, normalized: true}, {bufferView: 3, count: 3, type: 'SCALAR', componentType: 5123}],
	bufferViews: views, buffers: [{byteLength: binary.length}],
}, binary);

test('a model is read', async () => {
	const asked = [];
	const {parts, textures} = readModel(file(), async (address) => {
		asked.push(address);
		return new Blob([]);
	});
	assert.deepEqual(parts.map((p) => [p.id, p.above.id, p.extras.name, p.surfaces.length]), [['work', 'wall', 'a work', 2]]);
	const [s, plain] = parts[0].surfaces;
	assert.deepEqual([...s.at], [1, 1, -3, 2, 1, -3, 1, 2, -3], 'in the booth’s own coordinates');
	assert.deepEqual([...s.light], [32768, 0, 0, 65535, 0, 65535, 0, 65535, 0, 0, 3000, 65535], 'times the factor');
	assert.deepEqual([...s.on], [0, 0, 1, 0, 0, Math.fround(0.2)]);
	assert.deepEqual([...s.corners], [0, 1, 2]);
	assert.deepEqual([s.texture, s.twoSided, plain.texture, plain.twoSided], [1, true, -1, false]);
	assert.deepEqual([...plain.at], [...s.at], 'an accessor that is used twice');
	assert.deepEqual(textures.map((t) => [t.address, t.clamp]), [['image/1', true], [undefined, false]]);
	await textures[0].blob();
	assert.deepEqual(asked, ['image/1']);
	const blob = await textures[1].blob();
	assert.equal(blob.type, 'image/jpeg');
	assert.deepEqual(new Uint8Array(await blob.arrayBuffer()), image);
});

test('what is no .glb is refused', () => assert.throws(() => readModel(new Uint8Array(32), null), /no \.glb/));
