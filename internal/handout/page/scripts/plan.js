// The plan as it goes: when each step begins and ends, from what is ticked and from the minutes planned for the rest.

/**
 * @typedef {{number: number, minutes: number, after: number[], who: string[], once: boolean, done: number | null, open: boolean}} Step
 * after are the numbers of the steps before it, done is the minute at which it was ticked or null, and open says that somebody here sees that it is not done yet
 */

// forecast gives [start, end] in minutes for each step, in their order.
/** @type {(steps: Omit<Step, 'number' | 'once'>[], now: number) => [number, number][]} */
export function forecast(steps, now) {
	/** @type {Map<string, number>} */
	const free = new Map();
	/** @type {number[]} */
	const ends = [];
	return steps.map((s, i) => {
		const ready = Math.max(0, ...s.after.map((n) => ends[n - 1]), ...s.who.map((w) => free.get(w) || 0));
		let end = s.done === null ? ready + s.minutes : s.done;
		if (s.done === null && s.open) end = Math.max(end, now);
		for (const w of s.who) free.set(w, Math.max(free.get(w) || 0, end));
		ends[i] = end;
		return [Math.min(ready, end), end];
	});
}

// nextOf is the first step of a person that is not done.
/** @template {Step} S @param {S[]} steps @param {string} who */
export const nextOf = (steps, who) => steps.find((s) => s.done === null && s.who.includes(who));

// awaited are the steps that must be done before a step can begin: those that it comes after, and what those who help with
// it are still at. The person's own are left out.
/** @template {Step} S @param {S[]} steps @param {S} step @param {string} me */
export function awaited(steps, step, me) {
	const before = steps.filter((s) => s.done === null && s !== step && !s.who.includes(me) &&
		(step.after.includes(s.number) || s.number < step.number && s.who.some((w) => step.who.includes(w))));
	// Of one person's steps only the last counts: those before it are done on the way.
	return before.filter((s) => !before.some((o) => o.number > s.number && s.who.every((w) => o.who.includes(w))));
}

// early are later steps that a person could do alone while they wait.
/** @template {Step} S @param {S[]} steps @param {string} me @param {number} minutes */
export const early = (steps, me, minutes) => steps.filter((s) => s.done === null && !s.once && s.who.length === 1 && s.who[0] === me &&
	s.minutes <= minutes && s.after.every((n) => steps[n - 1].done !== null));
