// mark is an SVG element with attributes and children.
export function mark(name, attributes, ...children) {
	const e = document.createElementNS('http://www.w3.org/2000/svg', name);
	for (const [k, v] of Object.entries(attributes || {})) if (v !== null) e.setAttribute(k, v);
	e.append(...children.filter((c) => c !== null));
	return e;
}
