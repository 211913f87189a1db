// One part at a time on the screen; without script all of them follow one another.
document.documentElement.classList.add('scripted-page');
startTicks();
const openHooks = startHang();
startSetup();
try {
	startWalk();
} catch (reason) {
	document.documentElement.classList.add('no-stage');
	byId('unable').hidden = false;
}

const sections = all('main > section');
function turnTo(hash, jump) {
	const id = hash.slice(1);
	const target = byId(id);
	const section = (target && target.closest('main > section')) || sections[0];
	for (const s of sections) s.classList.toggle('current', s === section);
	for (const a of all('nav a')) {
		if (a.getAttribute('href') === '#' + section.id) a.setAttribute('aria-current', 'page');
		else a.removeAttribute('aria-current');
	}
	if (!openHooks(id) && jump) window.scrollTo(0, 0);
}
window.addEventListener('hashchange', () => turnTo(location.hash, true));
turnTo(location.hash, false);
window.addEventListener('beforeprint', () => all('details').forEach((d) => (d.dataset.was = d.open ? 'yes' : 'no', d.open = true)));
window.addEventListener('afterprint', () => all('details').forEach((d) => (d.open = d.dataset.was === 'yes')));
