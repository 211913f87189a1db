// One part at a time on the screen; without script all of them follow one another. It opens on the set-up, where the work is;
// the walk is made ready when it is first opened.
import {all, byId, one} from './dom.js';
import {startDay} from './day.js';
import {facts, modelBytes} from './facts.js';
import {startHang} from './hang.js';
import {startWalk} from './look.js';
import {startSales} from './sales.js';
import {startSetup} from './setup.js';
import {startTicks} from './ticks.js';
import {startWake} from './wake.js';

document.documentElement.classList.add('scripted-page');
startTicks();
startWake();
startSales();
startDay();
const openHooks = startHang();
const openStep = startSetup();

const unable = () => {
	document.documentElement.classList.add('no-stage');
	byId('unable').hidden = false;
};
let opened = false, ready = false;
/** @type {Element | null} */
let wanted = null; // the link into the walk that was followed last, while it is made ready
async function openWalk() {
	if (opened) return;
	opened = true;
	try {
		startWalk(facts, await modelBytes(), () => Promise.reject(new Error('its pictures are in the model')));
		ready = true;
		if (wanted) wanted.dispatchEvent(new Event('click')); // now somebody hears it
	} catch {
		unable();
	}
}
if (!window.WebGL2RenderingContext || !window.DecompressionStream || !byId('model').textContent) unable();
document.addEventListener('click', (e) => {
	const at = /** @type {Element} */ (e.target);
	const into = at.closest('.showme, .walkto');
	if (into && !ready) {
		wanted = into;
		openWalk();
	}
	const link = at.closest('.step a');
	if (link) came(/** @type {HTMLElement} */ (link.closest('.step')));
}, true);

// came remembers from which step the helper left, and offers the way back.
/** @param {HTMLElement} step */
function came(step) {
	const back = byId('came');
	const link = /** @type {HTMLAnchorElement} */ (back.querySelector('a'));
	link.href = '#' + step.id;
	link.textContent = `Back to step ${step.dataset.number}`;
	back.hidden = false;
}

const sections = all('main > section');
const plainTitle = document.title;
/** @param {string} hash @param {boolean} jump */
function turnTo(hash, jump) {
	const id = hash.slice(1);
	const target = document.getElementById(id);
	const section = (target && target.closest('main > section')) || sections[0];
	if (section.id === 'walk') openWalk();
	if (section.id === 'setup') byId('came').hidden = true;
	for (const s of sections) s.classList.toggle('current', s === section);
	for (const a of all('nav a')) {
		if (a.getAttribute('href') === '#' + section.id) {
			a.setAttribute('aria-current', 'page');
			a.scrollIntoView({block: 'nearest', inline: 'nearest'});
		} else a.removeAttribute('aria-current');
	}
	const name = one('h2', section).textContent;
	document.title = `${name} · ${plainTitle}`;
	if (jump) byId('part-said').textContent = name;
	if (openHooks(id) || openStep(id) || !jump) return;
	if (target && target !== section) target.scrollIntoView({block: 'start'});
	else window.scrollTo(0, 0);
}
window.addEventListener('hashchange', () => turnTo(location.hash, true));
turnTo(location.hash, false);

// Printed is the part on the screen, or everything if that is asked for.
/** @returns {HTMLDetailsElement[]} */
const printed = () => all(document.documentElement.classList.contains('print-all') ? 'details' : 'main > .current details');
window.addEventListener('beforeprint', () => printed().forEach((d) => (d.dataset.was = d.open ? 'yes' : 'no', d.open = true)));
window.addEventListener('afterprint', () => {
	for (const d of printed()) {
		if (!d.dataset.was) continue;
		d.open = d.dataset.was === 'yes';
		delete d.dataset.was;
	}
	document.documentElement.classList.remove('print-all');
});
/** @param {boolean} everything */
const print = (everything) => {
	document.documentElement.classList.toggle('print-all', everything);
	window.print();
};
byId('print-part').addEventListener('click', () => print(false));
byId('print-all').addEventListener('click', () => print(true));
