const byId = (id) => document.getElementById(id);
const all = (selector) => [...document.querySelectorAll(selector)];

// make is an element with properties and children; a text is a child too.
function make(name, properties, ...children) {
	const e = Object.assign(document.createElement(name), properties);
	e.append(...children.filter((c) => c !== null));
	return e;
}

// mark is an SVG element with attributes and children.
function mark(name, attributes, ...children) {
	const e = document.createElementNS('http://www.w3.org/2000/svg', name);
	for (const [k, v] of Object.entries(attributes || {})) if (v !== null) e.setAttribute(k, v);
	e.append(...children.filter((c) => c !== null));
	return e;
}
