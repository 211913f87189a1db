// The hours of a day with the sun: one at a time, chosen by a slider. Without script all of them follow one another.
import {all, byId} from './dom.js';

export function startDay() {
	const day = byId('day'), hour = byId('hour');
	if (!day) return;
	const hours = all('figure', day);
	const show = () => {
		hours.forEach((h, i) => (h.hidden = i !== hour.valueAsNumber));
		hour.setAttribute('aria-valuetext', (hours[hour.valueAsNumber].textContent || '').trim());
	};
	hour.addEventListener('input', show);
	show();
}
