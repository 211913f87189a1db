// Lengths as people write them, like package unit: inches to 1/8, centimetres to the millimetre.
/** @param {number} metres @param {string} units */
export function lengthWords(metres, units) {
	const sign = metres < 0 ? '-' : '', size = Math.abs(metres) + 1e-11; // what lies half-way is rounded alike however it was worked out
	if (units === 'cm') return `${size >= 0.0005 ? sign : ''}${Math.round(size * 1000) / 10} cm`;
	const n = Math.round(size / 0.0254 * 8), whole = Math.floor(n / 8), rest = n % 8;
	const fraction = ['', '1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'][rest];
	return `${n ? sign : ''}${whole || !rest ? whole : ''}${whole && rest ? ' ' : ''}${fraction} in`;
}

/** @param {number} share */
export const percent = (share) => `${Math.round(share * 100)} %`;

/** @type {{[level: string]: string}} */
export const gravity = {fail: 'To mend', caution: 'Worth a change', note: 'Good to know'};

export const version = 1; // of the messages, as in message.go
