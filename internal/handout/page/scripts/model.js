// The booth's .glb (glTF 2.0, ISO/IEC 12113) as lists of numbers, everything in the booth's own coordinates. Read is what
// boothmock writes: unlit materials, the light in COLOR_0, nodes that are only moved. fetched gives the pictures that have addresses.
/**
 * @typedef {{at: Float32Array, light: Uint16Array, on: Float32Array, corners: Uint32Array, texture: number, twoSided: boolean}} Surface
 * at, light and on hold 3, 4 and 2 numbers for each vertex; texture is -1 where there is none
 * @typedef {{id: string, above: Part | null, extras: {name?: string}, surfaces: Surface[]}} Part
 * @typedef {{address?: string, clamp: boolean, blob: () => Promise<Blob>}} Texture
 * @typedef {{parts: Part[], textures: Texture[]}} Model
 * @typedef {(address: string) => Promise<Blob>} Fetched
 * @typedef {{accessors: {bufferView: number, byteOffset?: number, count: number, type: keyof typeof widths, componentType: keyof typeof arrays, normalized?: boolean}[],
 *   bufferViews: {byteOffset?: number, byteLength: number}[], scene?: number, scenes: {nodes: number[]}[],
 *   nodes: {name: string, translation?: number[], extras?: {name?: string}, mesh?: number, children?: number[]}[], meshes: {primitives: Primitive[]}[],
 *   materials: {doubleSided?: boolean, pbrMetallicRoughness: {baseColorFactor?: number[], baseColorTexture?: {index: number}}}[],
 *   textures?: {source: number, sampler: number}[], images: {uri?: string, bufferView: number, mimeType: string}[], samplers: {wrapS: number}[]}} Gltf
 * @typedef {{material: number, indices: number, attributes: {POSITION: number, COLOR_0: number, TEXCOORD_0?: number}}} Primitive
 */
const arrays = {5121: Uint8Array, 5123: Uint16Array, 5125: Uint32Array, 5126: Float32Array};
const widths = {SCALAR: 1, VEC2: 2, VEC3: 3, VEC4: 4};

/** @type {(bytes: Uint8Array<ArrayBuffer>, fetched: Fetched) => Model} */
export function readModel(bytes, fetched) {
	const view = new DataView(bytes.buffer);
	if (view.getUint32(0, true) !== 0x46546c67) throw new Error('this is no .glb');
	const length = view.getUint32(12, true);
	/** @type {Gltf} */
	const json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length)));
	const binary = 20 + length + 8;

	// numbers of an accessor; those that stand for shares become shares if asked.
	/** @type {(index: number, shares?: boolean) => any} */
	const numbers = (index, shares) => {
		const a = json.accessors[index];
		const v = json.bufferViews[a.bufferView];
		const at = binary + (v.byteOffset || 0) + (a.byteOffset || 0);
		const n = a.count * widths[a.type];
		const kind = arrays[a.componentType];
		const out = new kind(bytes.slice(at, at + n * kind.BYTES_PER_ELEMENT).buffer);
		if (!shares || !a.normalized) return out;
		return Float32Array.from(out, (x) => x / (a.componentType === 5123 ? 65535 : 255));
	};
	/** @type {(p: Primitive, origin: number[]) => Surface} */
	const surface = (p, origin) => {
		const m = json.materials[p.material];
		const pbr = m.pbrMetallicRoughness;
		const factor = pbr.baseColorFactor || [1, 1, 1, 1];
		const at = numbers(p.attributes.POSITION);
		for (let i = 0; i < at.length; i++) at[i] += origin[i % 3];
		const light = numbers(p.attributes.COLOR_0);
		for (let i = 0; i < light.length; i++) light[i] = Math.round(light[i] * factor[i % 4]);
		const coordinates = p.attributes.TEXCOORD_0;
		return {
			at, light,
			on: coordinates === undefined ? new Float32Array(at.length / 3 * 2) : numbers(coordinates, true),
			corners: numbers(p.indices),
			texture: pbr.baseColorTexture ? pbr.baseColorTexture.index : -1,
			twoSided: Boolean(m.doubleSided),
		};
	};
	/** @type {Part[]} */
	const parts = [];
	/** @type {(index: number, above: Part | null, origin: number[]) => void} */
	const walk = (index, above, origin) => {
		const node = json.nodes[index];
		const t = node.translation || [0, 0, 0];
		const here = [origin[0] + t[0], origin[1] + t[1], origin[2] + t[2]];
		/** @type {Part} */
		const part = {id: node.name, above, extras: node.extras || {}, surfaces: []};
		if (node.mesh !== undefined) {
			part.surfaces = json.meshes[node.mesh].primitives.map((p) => surface(p, here));
			parts.push(part);
		}
		for (const child of node.children || []) walk(child, part, here);
	};
	for (const root of json.scenes[json.scene || 0].nodes) walk(root, null, [0, 0, 0]);

	const textures = (json.textures || []).map((t) => {
		const image = json.images[t.source];
		const clamp = json.samplers[t.sampler].wrapS === 33071;
		const uri = image.uri;
		if (uri) return {address: uri, clamp, blob: () => fetched(uri)};
		const v = json.bufferViews[image.bufferView];
		const at = binary + (v.byteOffset || 0);
		return {clamp, blob: async () => new Blob([bytes.subarray(at, at + v.byteLength)], {type: image.mimeType})};
	});
	return {parts, textures};
}

