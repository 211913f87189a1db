// Elements of the page.
export const byId = (id) => document.getElementById(id);
export const all = (selector) => [...document.querySelectorAll(selector)];

// make is an element with properties and children; a text is a child too.
export function make(name, properties, ...children) {
	const e = Object.assign(document.createElement(name), properties);
	e.append(...children.filter((c) => c !== null));
	return e;
}

// calm says whether the person wants nothing to move by itself.
export const calm = () => matchMedia('(prefers-reduced-motion: reduce)').matches;
