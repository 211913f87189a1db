// Elements of the page.

// byId is an element that the page's HTML has by this name. The checker of types knows them.
/** @type {<K extends keyof Ids>(id: K) => Ids[K]} */
export const byId = (id) => /** @type {any} */ (document.getElementById(id));
/** @template {HTMLElement} [T=HTMLElement] @param {string} selector @param {ParentNode} [within] @returns {T[]} */
export const all = (selector, within) => [.../** @type {NodeListOf<T>} */ ((within || document).querySelectorAll(selector))];
// one is the first of all, where there is one for certain.
/** @template {HTMLElement} [T=HTMLElement] @param {string} selector @param {ParentNode} [within] @returns {T} */
export const one = (selector, within) => /** @type {any} */ ((within || document).querySelector(selector));

// make is an element with properties and children; a text is a child too.
/** @type {<K extends keyof HTMLElementTagNameMap>(name: K, properties: Partial<HTMLElementTagNameMap[K]>, ...children: (Node | string | null)[]) => HTMLElementTagNameMap[K]} */
export function make(name, properties, ...children) {
	const e = Object.assign(document.createElement(name), properties);
	e.append(...children.filter((c) => c !== null));
	return e;
}

// calm says whether the person wants nothing to move by itself.
export const calm = () => matchMedia('(prefers-reduced-motion: reduce)').matches;
