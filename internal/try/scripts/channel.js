// The channel to the program that serves the page: all that the page asks for goes through say, all that it hears through news.
// Whoever puts the program into the page has a channel of their own in its place.
import {startDesk} from './desk.js';
import {version} from './words.js';
/** @import {Channel} from './desk.js' */

/** @type {Channel} */
const channel = {
	// say gives the answer to an ask, with a photograph if there is one; the answers come in the order in which was asked.
	async say(ask, file) {
		const message = JSON.stringify({version, ...ask});
		const reply = file ? await fetch('photograph?' + new URLSearchParams({ask: message}), {method: 'POST', body: file})
			: await fetch('say', {method: 'POST', headers: {'Content-Type': 'application/json'}, body: message});
		if (!reply.ok) throw new Error(await reply.text());
		return reply.json();
	},
	async state() {
		const reply = await fetch('state');
		if (!reply.ok) throw new Error(await reply.text());
		return reply.json();
	},
	// news calls heard with the number of every new state, and lost when nobody answers any more.
	news(heard, lost) {
		const source = new EventSource('news');
		source.addEventListener('message', (e) => heard(Number(e.data)));
		source.addEventListener('error', lost);
	},
	// side is where the picture is of one of two booths that are side by side.
	async side(number, which, view) {
		return 'side?' + new URLSearchParams({number: String(number), which: String(which), view});
	},
	// booth gives facts and model of the state with a number, or null if that is gone.
	async booth(at, light) {
		const [facts, model] = await Promise.all([fetch(`facts?at=${at}&light=${light}`), fetch(`model?at=${at}&light=${light}`)]);
		if (facts.status === 410 || model.status === 410) return null;
		if (!facts.ok || !model.ok) throw new Error('the booth cannot be drawn');
		return {facts: await facts.json(), bytes: new Uint8Array(await model.arrayBuffer())};
	},
	// picture is what a picture of the model is, by its address.
	picture: async (address) => (await fetch(address)).blob(),
};
startDesk(channel);
