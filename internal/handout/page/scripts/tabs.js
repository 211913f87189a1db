// One part at a time on the screen; without script all of them follow one another. It opens on the set-up, where the work is;
// the walk is made ready when it is first opened.
import {all, byId} from './dom.js';
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
const openHooks = startHang();
const openStep = startSetup();

const unable = () => {
	document.documentElement.classList.add('no-stage');
	byId('unable').hidden = false;
};
let walkable; // undefined until it is known
function openWalk() {
	if (walkable !== undefined) return;
	try {
		startWalk(facts, modelBytes());
		walkable = true;
	} catch (reason) {
		walkable = false;
		unable();
	}
}
if (!window.WebGL2RenderingContext || !byId('model').textContent) unable();
// A link into the walk finds it ready: it is asked before the link itself.
document.addEventListener('click', (e) => {
	const link = e.target.closest('.showme, .walkto');
	if (link) openWalk();
	const step = e.target.closest('.step a');
	if (step) came(step.closest('.step'));
}, true);

// came remembers from which step the helper left, and offers the way back.
function came(step) {
	const back = byId('came');
	back.querySelector('a').href = '#' + step.id;
	back.querySelector('a').textContent = `Back to step ${step.dataset.number}`;
	back.hidden = false;
}

const sections = all('main > section');
const plainTitle = document.title;
function turnTo(hash, jump) {
	const id = hash.slice(1);
	const target = byId(id);
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
	const name = section.querySelector('h2').textContent;
	document.title = `${name} · ${plainTitle}`;
	if (jump) byId('part-said').textContent = name;
	if (openHooks(id) || openStep(id) || !jump) return;
	if (target && target !== section) target.scrollIntoView({block: 'start'});
	else window.scrollTo(0, 0);
}
window.addEventListener('hashchange', () => turnTo(location.hash, true));
turnTo(location.hash, false);

// Printed is the part on the screen, or everything if that is asked for.
const printed = () => all(document.documentElement.classList.contains('print-all') ? 'details' : 'main > .current details');
window.addEventListener('beforeprint', () => printed().forEach((d) => (d.dataset.was = d.open ? 'yes' : 'no', d.open = true)));
window.addEventListener('afterprint', () => {
	for (const d of all('details[data-was]')) {
		d.open = d.dataset.was === 'yes';
		delete d.dataset.was;
	}
	document.documentElement.classList.remove('print-all');
});
for (const [id, everything] of [['print-part', false], ['print-all', true]]) byId(id).addEventListener('click', () => {
	document.documentElement.classList.toggle('print-all', everything);
	window.print();
});
