// What a work that is dragged by hand catches on: heights of centres and edges, even spaces, neighbours' edges, the last free place of a
// mesh or a chain. All measures are metres along a wall from its left end, and up from the ground.

/**
 * @typedef {Pick<Go.Work, 'wall' | 'left' | 'wide' | 'centre' | 'high' | 'hooks'>} Piece
 * @typedef {Pick<Go.Wall, 'id' | 'wide' | 'low' | 'high' | 'hold' | 'spacing'>} Place
 * @typedef {{x: number, y: number, line: number | null, column: number | null}} Catch its left edge and its centre, and what of them it caught on
 */

// caught brings a work, held with its left edge and its centre somewhere on a wall among others, to what is near. usual is the usual
// height of centres.
/** @type {(w: Piece, wall: Place, others: Piece[], usual: number, left: number, centre: number, near: number) => Catch} */
export function caught(w, wall, others, usual, left, centre, near) {
	const line = nearest(centre, heights(w, wall, others, usual), near), column = nearest(left, lefts(w, wall, others, centre), near);
	return {x: Math.max(0, Math.min(wall.wide - w.wide, column === null ? left : column)), y: line === null ? centre : line, line, column};
}

/** @type {(is: number, wishes: number[], near: number) => number | null} */
function nearest(is, wishes, near) {
	/** @type {number | null} */
	let best = null;
	for (const v of wishes) if (Math.abs(v - is) < near && (best === null || Math.abs(v - is) < Math.abs(best - is))) best = v;
	return best;
}

/** @type {(w: Piece, wall: Place, others: Piece[], usual: number) => number[]} */
function heights(w, wall, others, usual) {
	const out = [usual, ...others.flatMap((k) => [k.centre, k.centre + k.high / 2 - w.high / 2, k.centre - k.high / 2 + w.high / 2])];
	if (wall.hold === 'mesh' && w.wall === wall.id && w.hooks.length) {
		const y = w.hooks[0].y, k = wall.spacing; // its hooks on the highest and on the lowest wire
		out.push(w.centre + Math.floor((wall.high - y) / k + 1e-6) * k, w.centre - Math.floor((y - wall.low) / k + 1e-6) * k);
	}
	return out;
}

/** @type {(w: Piece, wall: Place, others: Piece[], centre: number) => number[]} */
function lefts(w, wall, others, centre) {
	const beside = others.filter((k) => Math.abs(k.centre - centre) < (k.high + w.high) / 2).sort((a, b) => a.left - b.left);
	const out = [(wall.wide - w.wide) / 2, ...others.flatMap((k) => [k.left + k.wide / 2 - w.wide / 2, k.left, k.left + k.wide - w.wide])];
	const gaps = [...beside, {left: wall.wide, wide: 0}].map((k, i) => [i ? beside[i - 1].left + beside[i - 1].wide : 0, k.left]); // from the left end to the right
	for (const [i, [from, to]] of gaps.entries()) {
		if (i > 0 && i < beside.length) out.push(beside[i].left + beside[i].wide + to - from, beside[i - 1].left - (to - from) - w.wide); // on with an even space
		if (to - from <= w.wide) continue;
		out.push((from + to - w.wide) / 2);
		if (wall.hold === 'chains' && w.hooks.length) out.push(...lastPlaces(from, to, w, wall.spacing));
	}
	return out;
}

// lastPlaces are the first and the last place between two neighbours at which the work's first hook is on a chain.
/** @type {(from: number, to: number, w: Piece, spacing: number) => number[]} */
function lastPlaces(from, to, w, spacing) {
	const hook = w.hooks[0].x - w.left;
	const first = Math.ceil((from + hook) / spacing - 1e-6) * spacing - hook, last = Math.floor((to - w.wide + hook) / spacing + 1e-6) * spacing - hook;
	return first <= last ? [first, last] : [];
}
