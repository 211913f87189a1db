// What the page carries besides what is to be read: facts as JSON, and the booth's .glb.
const facts = JSON.parse(document.getElementById('facts').textContent);
const byId = (id) => document.getElementById(id);
const all = (selector) => [...document.querySelectorAll(selector)];

function modelBytes() {
	const text = atob(byId('model').textContent);
	const bytes = new Uint8Array(text.length);
	for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
	return bytes;
}

