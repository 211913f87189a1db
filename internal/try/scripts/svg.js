// mark is an SVG element with attributes and children.
/** @type {<K extends keyof SVGElementTagNameMap>(name: K, attributes: {[name: string]: string | number | null}, ...children: (Node | string | null)[]) => SVGElementTagNameMap[K]} */
export function mark(name, attributes, ...children) {
	const e = document.createElementNS('http://www.w3.org/2000/svg', name);
	for (const [k, v] of Object.entries(attributes)) if (v !== null) e.setAttribute(k, String(v));
	e.append(...children.filter((c) => c !== null));
	return e;
}

// idIn is the id of the thing in a drawing that has the focus, and focusIn gives it back when the drawing was drawn anew.
/** @param {Element} drawing */
export const idIn = (drawing) => (drawing.contains(document.activeElement) && /** @type {SVGElement} */ (document.activeElement).dataset.id || null);
/** @param {Element} drawing @param {string | null} id */
export function focusIn(drawing, id) {
	const again = id && [.../** @type {NodeListOf<SVGElement>} */ (drawing.querySelectorAll('[tabindex]'))].find((e) => e.dataset.id === id);
	if (again) again.focus({preventScroll: true});
}
