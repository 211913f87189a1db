// What the page carries besides what is to be read: facts as JSON, and the booth's .glb, packed.
import {byId} from './dom.js';

/** @type {Go.Facts} */
export const facts = JSON.parse(byId('facts').textContent);

export async function modelBytes() {
	const text = atob(byId('model').textContent);
	const packed = new Uint8Array(text.length);
	for (let i = 0; i < text.length; i++) packed[i] = text.charCodeAt(i);
	const plain = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'));
	return new Uint8Array(await new Response(plain).arrayBuffer());
}

