// The desk: one state, shown on every sheet, and what the person's hands ask of the program.
import {all, byId, calm, make, one} from '../../handout/page/scripts/dom.js';
import {startWalk} from '../../handout/page/scripts/look.js';
import {makeAdd} from './add.js';
import {blank, fill, put, question, questions} from './ask.js';
import {makeLabel} from './card.js';
import {makePlan} from './plan.js';
import {makeTold} from './told.js';
import {makeVariants} from './variants.js';
import {makeWalls} from './walls.js';
import {lengthWords} from './words.js';
/** @import {Fetched} from '../../handout/page/scripts/model.js' */
/** @import {Walk} from '../../handout/page/scripts/look.js' */

/**
 * @typedef {Partial<Omit<Go.Ask, 'version' | 'file'>> & {do: string}} Ask
 * @typedef {{facts: Go.Facts, bytes: Uint8Array<ArrayBuffer>}} Booth
 * @typedef {{say(ask: Ask, file?: File): Promise<Go.Answer>, state(): Promise<Go.State>, news(heard: (at: number) => void, lost: () => void): void,
 *   side(number: number, which: number, view: string): Promise<string>, booth(at: number, light: string): Promise<Booth | null>, picture: Fetched}} Channel
 * @typedef {Omit<Walk, 'copy' | 'next'> & Partial<Walk>} Look the walk, or where the browser cannot draw what does nothing in its place
 * @typedef {{channel: Channel, chosen: string | null, state: Go.State, asking: number, walk: Look, say(ask: Ask, file?: File): Promise<Go.Answer | null>,
 *   take(state: Go.State | null): void, drop(id: string, ask: Ask): Promise<void>, choose(id: string | null, go: boolean): void, save(): Promise<Go.Answer | boolean | null>}} Desk
 * channel and state are there before anything is asked
 */

/** @type {any} */
const later = null;
/** @type {Desk} */
export const desk = {
	channel: later, chosen: null, state: later, asking: 0,
	walk: {show() {}, carry() {}},
	async say(ask, file) {
		desk.asking++;
		try {
			const a = await desk.channel.say(ask, file);
			desk.take(a.state);
			if (a.refused) {
				desk.walk.carry(null);
				sheets.forEach((s) => s.show(desk.state));
				tellPerson(a.refused, true);
			} else if (a.said) tellPerson(a.said + changes(desk.state), false);
			if (a.added) desk.choose(a.added, true);
			return a;
		} catch {
			tellPerson('The program does not answer. Is it still running?', true);
			return null;
		} finally {
			desk.asking--;
			document.documentElement.dataset.asking = String(desk.asking);
		}
	},
	// take shows a state, unless a later one is shown already.
	take(state) {
		if (!state || desk.state && state.at <= desk.state.at) return;
		const another = !desk.state || JSON.stringify([desk.state.works, desk.state.ground, desk.state.findings]) !== JSON.stringify([state.works, state.ground, state.findings]);
		desk.state = state;
		document.title = `${state.saved ? '' : '• '}${state.title}`;
		byId('title').textContent = state.title;
		byId('trouble').textContent = state.trouble;
		byId('trouble').hidden = !state.trouble;
		names(byId('undo'), 'Take back', state.undo);
		names(byId('redo'), 'Do again', state.redo);
		byId('save').textContent = state.saved && state.file ? 'Saved' : 'Save';
		byId('save').disabled = state.saved && Boolean(state.file);
		for (const s of sheets) s.show(state);
		label.show(state, desk.chosen);
		if (state.asks) question(desk, state.asks);
		else if (questions[byId('ask').dataset.of || '']) byId('ask').close();
		if (another) light(state.at);
		document.documentElement.dataset.at = String(state.at);
	},
	// drop asks for what letting go of a thing does, with its label open: all is drawn once, when it is answered.
	async drop(id, ask) {
		const {at} = desk.state;
		desk.chosen = id;
		await desk.say(ask);
		if (desk.state.at === at) desk.choose(id, false); // nothing has changed
	},
	// choose opens the label of a thing, and goes there if asked; nothing closes it.
	choose(id, go) {
		const was = desk.chosen;
		desk.chosen = id;
		for (const s of sheets) s.show(desk.state);
		label.show(desk.state, id);
		if (id && go) {
			if (innerWidth < 960) byId('label').scrollIntoView({block: 'nearest', behavior: calm() ? 'auto' : 'smooth'});
			label.focus();
		}
		if (!id && go && was) [walls, plan].forEach((s) => s.focus(was));
	},
	async save() {
		if (desk.state.file) return desk.say({do: 'save'});
		return fill(desk, 'name', 'Save the demo as a booth of your own', 'A folder is made where the program was started, with the scene and its photographs.', 'Save',
			[blank('Name of the folder', '')], (name) => ({do: 'save', text: name}));
	},
};
const walls = makeWalls(desk), plan = makePlan(desk), label = makeLabel(desk);
const sheets = [walls, plan, makeTold(desk), makeAdd(desk), makeVariants(desk)];

// names says what a button would do.
/** @param {HTMLButtonElement} button @param {string} words @param {string} what */
function names(button, words, what) {
	button.disabled = !what;
	button.title = what;
	button.setAttribute('aria-label', what ? `${words}: ${what}` : words);
}

/** @param {string} words @param {boolean} wrong */
export function tellPerson(words, wrong) {
	byId('said').textContent = words;
	byId('said').classList.toggle('wrong', wrong);
}

// changes are the findings that came and went, in a sentence.
/** @param {Go.State} state */
function changes(state) {
	const fresh = state.findings.filter((f) => f.new && f.level !== 'note');
	return (fresh.length ? ` New: ${fresh.slice(0, 2).map((f) => f.text).join(' ')}${fresh.length > 2 ? ` And ${fresh.length - 2} more.` : ''}` : '')
		+ (state.mended.length ? ` Mended: ${state.mended.slice(0, 2).map((f) => f.text).join(' ')}${state.mended.length > 2 ? ` And ${state.mended.length - 2} more.` : ''}` : '');
}

// light brings the walk to a state: in quick light first, then in the whole daylight. Of states that follow each other quickly the last counts.
let lighting = 0, offered = '', begun = false, blind = false; // offered are the places to stand at
/** @param {number} at */
async function light(at) {
	const mine = ++lighting;
	const canvas = byId('stage');
	for (const kind of ['quick', 'full']) {
		if (blind) break; // nothing can be drawn: the program need not light it
		byId('light').textContent = kind === 'full' ? 'The daylight is on its way.' : '';
		const b = await desk.channel.booth(at, kind).catch(() => null);
		if (mine !== lighting || !b) return;
		fade();
		places(b.facts);
		if (!begun) begin(b);
		else if (desk.walk.next) desk.walk.next(b.facts, b.bytes);
		canvas.dataset.lit = `${at} ${kind}`;
	}
	byId('light').textContent = '';
}

// fade lets the picture as it was go slowly over the new one.
function fade() {
	const to = byId('fade');
	if (calm() || !desk.walk.copy) return;
	desk.walk.copy(to);
	to.hidden = false;
	to.classList.remove('gone');
	to.ontransitionend = () => (to.hidden = true);
	requestAnimationFrame(() => requestAnimationFrame(() => to.classList.add('gone')));
}

// places offers where to stand and by whose eyes to see, where they are others than before.
/** @param {Go.Facts} facts */
function places(facts) {
	const now = JSON.stringify([facts.views, facts.eyes]);
	if (now === offered) return;
	offered = now;
	byId('view').replaceChildren(...facts.views.map((v) => new Option(v.title, v.name)));
	byId('eye').replaceChildren(...facts.eyes.map((e, i) => new Option(`${e.name}, ${lengthWords(e.height, desk.state.units)}`, String(i))));
}

/** @param {Booth} b */
function begin(b) {
	begun = true;
	try {
		const walk = startWalk(b.facts, b.bytes, desk.channel.picture);
		desk.walk = {...walk, show: (view, item) => {
			walk.show(view || 'entrance', item);
			if (innerWidth < 960) byId('walk').scrollIntoView();
		}};
	} catch (reason) {
		unable(reason);
	}
}

// unable says that the booth cannot be drawn.
/** @param {unknown} reason */
function unable(reason) {
	console.warn(reason);
	blind = true;
	document.documentElement.classList.add('no-stage');
	byId('unable').hidden = false;
}

byId('undo').addEventListener('click', () => desk.say({do: 'undo'}));
byId('redo').addEventListener('click', () => desk.say({do: 'redo'}));
byId('save').addEventListener('click', desk.save);
byId('call').addEventListener('click', () => fill(desk, 'call', 'The fair, and whose booth it is', 'They stand above this page, and on everything that you print or hand over.', 'Put them down',
	[blank('What the fair is called', desk.state.event), blank('Your name', desk.state.artist)], (name, title) => ({do: 'call', name, title})));
one('form', byId('ask')).addEventListener('submit', (e) => {
	e.preventDefault();
	const main = all('.main', byId('ask-hands'))[0];
	if (main) main.click();
});
byId('end').addEventListener('click', () => {
	if (desk.state.saved) return desk.say({do: 'end'});
	const go = make('button', {type: 'button', textContent: 'End all the same', onclick: () => {
		byId('ask').close();
		desk.say({do: 'end'});
	}});
	put('end', 'Not everything is saved', desk.state.file ? 'What is not saved is kept beside the scene, and asked about the next time.' : 'What was tried with the demo is gone when the program ends.', [make('button', {type: 'button', className: 'main', textContent: 'Stay here', onclick: () => byId('ask').close()}), go]);
	return null;
});
// Ctrl or Cmd with Z, Y, S, as on every computer; not where a text is typed.
window.addEventListener('keydown', (e) => {
	if (!(e.ctrlKey || e.metaKey) || e.altKey || byId('ask').open) return;
	const typing = e.target instanceof HTMLInputElement;
	const k = e.key.toLowerCase();
	if (k === 's') desk.save();
	else if (!typing && (k === 'y' || k === 'z' && e.shiftKey)) desk.say({do: 'redo'});
	else if (!typing && k === 'z') desk.say({do: 'undo'});
	else return;
	e.preventDefault();
});

// startDesk begins with the state that the channel gives, and listens for others.
/** @param {Channel} channel */
export function startDesk(channel) {
	desk.channel = channel;
	if (!document.createElement('canvas').getContext('webgl2')) unable('no WebGL 2');
	channel.state().then((state) => {
		desk.take(state);
		channel.news(async (at) => {
			if (desk.state && at > desk.state.at && !desk.asking) desk.take(await channel.state());
			tellPerson(byId('said').dataset.lost ? '' : byId('said').textContent, byId('said').classList.contains('wrong'));
			delete byId('said').dataset.lost;
		}, () => {
			byId('said').dataset.lost = 'yes';
			tellPerson('The program does not answer. Is it still running?', true);
		});
	}).catch(() => tellPerson('The program does not answer. Is it still running?', true));
}
