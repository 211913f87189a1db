// Names of things on the plan, each where it meets no other.

/**
 * @typedef {{x0: number, y0: number, x1: number, y1: number}} Box pixels, y downwards
 * @typedef {{lines: string[], x: number, y: number}} Name its lines, and the middle of them
 */

const letter = 6.6, line = 13; // pixels of a letter and a line, about, at 12 px

/** @param {Box} a @param {Box} b */
const meet = (a, b) => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

/**
 * placeNames finds a place for each name, those first that come first: on its thing, else below, above or beside it, where nothing
 * stands. A name without room is left out: whoever chooses the thing reads it.
 * @param {{id: string, name: string, at: Box}[]} things
 * @param {number} width of the drawing
 * @param {number} high
 */
export function placeNames(things, width, high) {
	/** @type {Map<string, Name>} */
	const names = new Map();
	/** @type {Box[]} */
	const taken = [];
	for (const {id, name, at} of things) {
		const cx = (at.x0 + at.x1) / 2, cy = (at.y0 + at.y1) / 2;
		/** @param {string[]} lines @param {number} right @param {number} down */
		const place = (lines, right, down) => { // right and down: -1, 0 or 1, to which side of the thing
			const w = Math.max(...lines.map((l) => l.length)) * letter / 2, h = lines.length * line / 2;
			const x = right ? cx + right * ((at.x1 - at.x0) / 2 + w + 3) : Math.max(w, Math.min(width - w, cx)), y = cy + down * ((at.y1 - at.y0) / 2 + h + 1);
			const box = {x0: x - w, y0: y - h, x1: x + w, y1: y + h};
			const free = box.x0 >= 0 && box.x1 <= width && box.y0 >= 0 && box.y1 <= high && !taken.some((b) => meet(b, box)) &&
				(!right && !down || !things.some((o) => o.id !== id && meet(o.at, box)));
			if (free) {
				taken.push(box);
				names.set(id, {lines, x, y});
			}
			return free;
		};
		const words = name.split(' ');
		if (name.length * letter <= at.x1 - at.x0 && place([name], 0, 0)) continue;
		if (place(words, 0, 0)) continue;
		[[name], words].some((lines) => [[0, 1], [0, -1], [1, 0], [-1, 0]].some(([right, down]) => place(lines, right, down)));
	}
	return names;
}
