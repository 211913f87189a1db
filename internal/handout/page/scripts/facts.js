// What the page carries besides what is to be read: facts as JSON, and the booth's .glb.
import {byId} from './dom.js';

/** @type {Go.Facts} */
export const facts = JSON.parse(byId('facts').textContent);

export function modelBytes() {
	const text = atob(byId('model').textContent);
	const bytes = new Uint8Array(text.length);
	for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
	return bytes;
}

