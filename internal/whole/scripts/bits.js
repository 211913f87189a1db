// sevenBits gives the bytes of a text whose characters hold seven bits each: see packed in Go.
/** @param {string} text */
export function sevenBits(text) {
	const out = new Uint8Array(Math.floor(text.length * 7 / 8));
	let held = 0, bits = 0, to = 0;
	for (let i = 0; i < text.length; i++) {
		held = held << 7 | text.charCodeAt(i) & 127;
		bits += 7;
		if (bits >= 8) {
			bits -= 8;
			out[to++] = held >> bits;
			held &= (1 << bits) - 1;
		}
	}
	return out.subarray(0, to);
}
