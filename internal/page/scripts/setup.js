// Setting up: one step after another for the person who holds the phone, the clock beside the plan, and what each step
// really took.
function startSetup() {
	const runner = byId('runner');
	if (!runner) return;
	const steps = all('#steps .step');
	const run = store.get('run') || {begun: 0, who: '', now: -1, since: 0, took: {}, ended: 0};
	const keep = () => store.set('run', run);
	const people = all('#who input');
	for (const p of people) if (p.value === run.who) p.checked = true;
	const me = () => (people.find((p) => p.checked) || people[0] || {value: ''}).value;
	const mine = () => steps.filter((s) => s.dataset.who.split('|').includes(me()));
	const minutes = (ms) => `${Math.floor(ms / 3600000)}:${String(Math.floor(ms / 60000) % 60).padStart(2, '0')}`;
	let tick = 0;

	const clock = () => {
		if (!run.begun) {
			byId('clock-now').textContent = '0:00';
			byId('clock-plan').textContent = `planned ${minutes(runner.dataset.length * 60000)}`;
			return;
		}
		const gone = (run.ended || Date.now()) - run.begun;
		byId('clock-now').textContent = minutes(gone);
		const step = mine()[run.now];
		const due = (step ? Number(step.dataset.end) : Number(runner.dataset.length)) * 60000;
		const late = Math.round((gone - due) / 60000);
		byId('clock-plan').textContent = step ? `this step should end at ${minutes(due)}${late > 0 ? `: ${late} min late` : ''}` : `planned ${minutes(due)}`;
	};
	const show = (speak) => {
		const list = mine();
		const step = run.begun ? list[run.now] : null;
		document.documentElement.classList.toggle('running', Boolean(step));
		for (const s of steps) {
			s.classList.toggle('now', s === step);
			s.classList.toggle('others', !list.includes(s));
		}
		byId('step-next').textContent = !run.begun ? 'Start' : !step ? 'All done' : run.now + 1 < list.length ? 'Next' : 'Finish';
		byId('step-next').disabled = Boolean(run.begun) && !step;
		byId('step-back').disabled = !run.begun || run.now <= 0;
		byId('who').disabled = Boolean(step);
		clock();
		clearInterval(tick);
		if (step) tick = setInterval(clock, 5000);
		if (speak) window.scrollTo(0, 0);
		if (speak && step) byId('step-say').textContent = `Step ${run.now + 1} of ${list.length} for you.`;
		else if (!step) byId('step-say').textContent = run.begun ? 'Every step of yours is done.' : `${list.length} steps are yours.`;
		times();
	};
	const times = () => {
		const rows = steps.filter((s) => run.took[s.dataset.id] !== undefined).map((s) => `1,${quoted(s.dataset.id)},${(Math.max(0.1, run.took[s.dataset.id] / 60000)).toFixed(1)}`);
		byId('times').hidden = rows.length === 0;
		byId('times-text').value = ['practice,step,minutes', ...rows].join('\n') + '\n';
	};
	const quoted = (s) => (/[",\n]/.test(s) ? `"${s.replaceAll('"', '""')}"` : s);

	byId('step-next').addEventListener('click', () => {
		const list = mine();
		if (!run.begun) Object.assign(run, {begun: Date.now(), since: Date.now(), who: me(), now: 0});
		else {
			const step = list[run.now];
			run.took[step.dataset.id] = (run.took[step.dataset.id] || 0) + Date.now() - run.since;
			setTick(step.querySelector('[data-tick]'), true);
			run.now++;
			run.since = Date.now();
			if (run.now >= list.length) run.ended = Date.now();
		}
		keep();
		show(true);
	});
	byId('step-back').addEventListener('click', () => {
		const list = mine();
		if (list[run.now]) run.took[list[run.now].dataset.id] = (run.took[list[run.now].dataset.id] || 0) + Date.now() - run.since;
		run.now--;
		run.ended = 0;
		run.since = Date.now();
		setTick(list[run.now].querySelector('[data-tick]'), false);
		keep();
		show(true);
	});
	for (const p of people) p.addEventListener('change', () => show(false));
	byId('times-copy').addEventListener('click', () => copyText(byId('times-text'), byId('times-said')));
	byId('times-clear').addEventListener('click', () => {
		Object.assign(run, {begun: 0, now: -1, since: 0, took: {}, ended: 0});
		for (const s of steps) setTick(s.querySelector('[data-tick]'), false);
		keep();
		show(false);
		byId('step-next').focus();
	});
	show(false);
}

