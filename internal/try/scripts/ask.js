// The box in the middle of the page: it asks what only the person can say.
import {all, byId, make, one} from '../../handout/page/scripts/dom.js';
/** @import {Ask, Desk} from './desk.js' */

/** @type {{[of: string]: {title: string, text: string, answers: string[][]}}} */
export const questions = {
	theirs: {
		title: 'The file was changed in the meantime', text: 'Somebody, or another program, changed the scene’s file while there are changes here that are not saved. Both cannot be kept as they are.',
		answers: [['theirs', 'Show what is in the file; mine can be taken back to'], ['mine', 'Write mine over it']],
	},
	rescued: {
		title: 'There are changes that were never saved', text: 'The last time the program ended before what was tried was saved. It was kept beside the scene.',
		answers: [['carry on', 'Carry on with them'], ['drop', 'Drop them, begin with the scene as it was saved']],
	},
};

// question asks the person something that only they can decide.
/** @param {Desk} desk @param {string} of */
export function question(desk, of) {
	const box = byId('ask'), q = questions[of];
	if (box.open && box.dataset.of === of) return;
	put(of, q.title, q.text, q.answers.map(([value, words]) => make('button', {type: 'button', textContent: words, onclick: () => desk.say({do: 'answer', text: value})})));
	box.oncancel = (e) => e.preventDefault();
}

// put opens the box with a title, a text, buttons and fields to fill in. The first has the focus: what destroys is never first.
/** @type {(of: string, title: string, text: string, buttons: HTMLElement[], ...fields: HTMLElement[]) => void} */
export function put(of, title, text, buttons, ...fields) {
	const box = byId('ask');
	box.dataset.of = of;
	byId('ask-title').textContent = title;
	byId('ask-text').textContent = text;
	byId('ask-fields').replaceChildren(...fields);
	byId('ask-wrong').hidden = true;
	byId('ask-hands').replaceChildren(...buttons);
	box.oncancel = box.onclose = null;
	if (!box.open) box.showModal();
	if (fields.length) one('input, textarea', fields[0]).focus();
}

// blank is a field to fill in.
/** @param {string} label @param {string} value @param {boolean} [lines] it may have several */
export const blank = (label, value, lines) => make('label', {className: 'number'}, make('span', {textContent: label}),
	lines ? make('textarea', {value, rows: 4}) : make('input', {value, autocomplete: 'off', spellcheck: false}));
/** @returns {string[]} */
const filled = () => /** @type {HTMLInputElement[]} */ (all('#ask-fields input, #ask-fields textarea')).map((e) => e.value.trim());

// fill opens the box with fields; ask gives what is asked for with what was filled in, and the box stays open with the reason if that is refused.
// It gives whether it was done.
/** @type {(desk: Desk, of: string, title: string, text: string, words: string, fields: HTMLElement[], ask: (...filled: string[]) => Ask, file?: File) => Promise<boolean>} */
export function fill(desk, of, title, text, words, fields, ask, file) {
	return new Promise((done) => {
		const box = byId('ask');
		const go = make('button', {type: 'button', className: 'main', textContent: words, onclick: async () => {
			go.disabled = true;
			const a = await desk.say(ask(...filled()), file);
			go.disabled = false;
			byId('ask-wrong').textContent = a ? a.refused : 'The program does not answer.';
			byId('ask-wrong').hidden = Boolean(a && !a.refused);
			if (!a || a.refused) return;
			box.onclose = null;
			box.close();
			if (a.added) desk.choose(a.added, true);
			done(true);
		}});
		put(of, title, text, [go, make('button', {type: 'button', textContent: 'Not now', onclick: () => box.close()})], ...fields);
		box.onclose = () => done(false);
	});
}
