// The minutes that steps really took, to be sent home: as a text in the form of the log of times (RFC 4180), and as a QR code.
import {code} from './code.js';
import {copyText} from './copy.js';
import {byId, one} from './dom.js';

/** @type {(took: [step: string, minutes: number][]) => void} */
export function showMinutes(took) {
	const quoted = (/** @type {string} */ s) => (/[",\n]/.test(s) ? `"${s.replaceAll('"', '""')}"` : s);
	const rows = took.map(([step, minutes]) => `1,${quoted(step)},${Math.max(0.1, minutes).toFixed(1)}`);
	byId('minutes').hidden = !rows.length;
	byId('minutes-text').value = ['practice,step,minutes', ...rows].join('\n') + '\n';
	byId('minutes-said').textContent = '';
	if (byId('minutes').open) drawCode();
}

// drawCode draws the text as a code with the four clear modules that it needs all round, each of whole pixels; black on white,
// whatever the page's colours are.
function drawCode() {
	const dark = code(byId('minutes-text').value);
	const svg = byId('minutes-code');
	svg.toggleAttribute('hidden', !dark);
	byId('minutes-long').hidden = Boolean(dark);
	if (!dark) return;
	const size = dark.length + 8;
	const side = size * Math.max(1, Math.floor(Math.min(byId('minutes-text').clientWidth, 420) / size));
	for (const [name, value] of Object.entries({viewBox: `0 0 ${size} ${size}`, width: side, height: side})) svg.setAttribute(name, String(value));
	one('path', svg).setAttribute('d', dark.flatMap((row, y) => row.map((d, x) => (d ? `M${x + 4} ${y + 4}h1v1h-1z` : ''))).join(''));
}

export function startMinutes() {
	byId('minutes').addEventListener('toggle', () => byId('minutes').open && drawCode());
	byId('minutes-copy').addEventListener('click', () => copyText(byId('minutes-text'), byId('minutes-said')));
	byId('minutes-send').hidden = !navigator.share;
	byId('minutes-send').addEventListener('click', async () => {
		try {
			await navigator.share({text: byId('minutes-text').value}); // Web Share API (W3C)
			byId('minutes-said').textContent = 'Sent.';
		} catch (e) {
			if (/** @type {Error} */ (e).name !== 'AbortError') copyText(byId('minutes-text'), byId('minutes-said')); // it may not here
		}
	});
}
