import { type CarriedFigures, carriedIds } from '../../shared/report/carried.ts';
import { type Calculation, calculationTitles } from '../../shared/report/report.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { errorMessage } from '../../shared/words/error-message.ts';
import { count } from '../../shared/words/figures.ts';
import { createPool, type Pool } from '../host/pool.ts';
import { webWorkerHost } from '../host/web-worker-host.ts';
import { comparePrint } from './compare-print.ts';
import { type ComputedAgain, computeAgain } from './compute-again.ts';
import { findWorst, noWorst } from './find-worst.ts';

/*
 * The program that a report carries and runs in its own page when a reader asks
 * for it: computes the figures again, makes the page again from them, and says
 * whether every digit is the same.
 */

/** Differences told one by one. */
const told = 5;

/** A button for the study, one for everything, one to stop. */
function offer(host: HTMLElement): void {
	const text = (id: string): string => document.getElementById(id)?.textContent ?? '';
	const scenarioText = text(carriedIds.scenario);
	const reading = readScenario(scenarioText);
	const { calculations, missing, isCutShort, modelChecks } = JSON.parse(text(carriedIds.figures)) as CarriedFigures;
	const program = { check: text(carriedIds.check), worker: text(carriedIds.worker) };
	const worker = URL.createObjectURL(new Blob([program.worker], { type: 'text/javascript' }));
	const whole = calculations.filter(({ result }) => !result.provenance.partial);
	const studies = whole.filter(({ name }) => name === 'study');
	const buttons = element('p', 'buttons');
	const list = element('ul');
	const said = element('p', 'said');
	said.setAttribute('role', 'status');
	let running: AbortController | null = null;

	/** What came of every calculation, or null where the reader stopped it. */
	async function computeAll(
		chosen: readonly Calculation[],
		scenario: Scenario,
		pool: Pool,
		signal: AbortSignal,
	): Promise<readonly (ComputedAgain & { readonly of: Calculation })[] | null> {
		const made = [];
		for (const of of chosen) {
			const line = item(titleOf(of), list);
			const again = await computeAgain(scenario, of, pool, {
				signal,
				onProgress: ({ asked, finished, failed }) =>
					line.say(`${count(finished + failed)} of ${count(asked)} drives …`),
			});
			line.say(signal.aborted ? 'stopped.' : agreement(again));
			if (signal.aborted) return null;
			made.push({ ...again, of });
		}
		return made;
	}

	async function run(chosen: readonly Calculation[]): Promise<void> {
		if ('problems' in reading) throw new Error('the scenario that this file carries cannot be read');
		const { scenario } = reading;
		const { signal } = running as AbortController;
		const pool = createPool(webWorkerHost(() => new Worker(worker)));
		try {
			const made = await computeAll(chosen, scenario, pool, signal);
			if (made === null) return say('Stopped: nothing is said of what was not finished.', '');
			const line = item('This page', list);
			if (!isCutShort) line.say('its worst drives are simulated again …');
			const present = calculations.map((one) => made.find(({ of }) => of === one)?.calculation ?? one);
			const study = present.find((one) => one.name === 'study');
			const { result } = study as Calculation & { name: 'study' };
			const worst = isCutShort ? noWorst : await findWorst(scenario, result, pool);
			if (signal.aborted) return say('Stopped: nothing is said of what was not finished.', '');
			const again = { scenarioText, scenario, calculations: present, missing, isCutShort, worst, modelChecks };
			const other = await comparePrint(again, program, document);
			line.say(
				other.length === 0
					? 'made again from these figures, it is the same sign by sign, waveforms included (charts are not compared: the tables have their figures).'
					: `not what these figures say under: ${other.map((title) => `“${title}”`).join(', ')}.`,
			);
			const figures = made.reduce((sum, one) => sum + one.figures, 0);
			const isSame = other.length === 0 && made.every((one) => one.differences.length === 0 && one.sameDrives);
			say(
				isSame
					? `Every digit agrees: ${count(figures)} figures computed again.`
					: 'Not every digit agrees: this file was changed, or this browser computes otherwise.',
				isSame ? 'same' : 'other',
			);
		} finally {
			pool.close();
		}
	}

	function say(words: string, kind: '' | 'same' | 'other'): void {
		said.textContent = words;
		said.className = `said ${kind}`;
	}

	async function begin(chosen: readonly Calculation[]): Promise<void> {
		running = new AbortController();
		list.replaceChildren();
		say('', '');
		show();
		try {
			await run(chosen);
		} catch (error) {
			say(`It could not be computed again: ${errorMessage(error)}.`, 'other');
		}
		running = null;
		show();
	}

	const stop = button('Stop', () => running?.abort());
	const show = (): void => {
		for (const one of buttons.querySelectorAll('button')) one.disabled = (one === stop) === (running === null);
	};
	if (studies.length > 0) buttons.append(button('Compute the study again', () => void begin(studies)));
	if (whole.length > studies.length) {
		buttons.append(button(`Compute all ${whole.length} calculations again`, () => void begin(whole)));
	}
	buttons.append(stop);
	host.append(buttons, list, said);
	show();
	const cut = calculations.length - whole.length;
	if (cut > 0) say(`${count(cut)} calculations were cut short and cannot be computed again as they stand.`, '');
	if (studies.length > 0) void begin(studies);
}

function agreement({ figures, differences, sameDrives }: ComputedAgain): string {
	if (differences.length > 0) {
		const first = differences.slice(0, told).map((one) => `${one.path} is ${one.first} here and ${one.second} again`);
		return `${count(differences.length)} of ${count(figures)} figures differ. ${differences.length > told ? 'The first: ' : ''}${first.join('; ')}.`;
	}
	return sameDrives
		? `all ${count(figures)} figures are the same to the last digit, and so is every drive behind them (result digest).`
		: `all ${count(figures)} figures are the same, but not every drive behind them (result digest).`;
}

const titleOf = ({ name, asked, result }: Calculation): string =>
	'point' in asked && 'point' in result ? `${calculationTitles[name]} at ${result.point}` : calculationTitles[name];

function item(title: string, list: HTMLElement): { readonly say: (words: string) => void } {
	const made = element('li');
	list.append(made);
	return {
		say: (words) => {
			made.textContent = `${title}: ${words}`;
		},
	};
}

function button(words: string, act: () => void): HTMLButtonElement {
	const made = document.createElement('button');
	made.type = 'button';
	made.textContent = words;
	made.addEventListener('click', act);
	return made;
}

function element(name: string, className = ''): HTMLElement {
	const made = document.createElement(name);
	made.className = className;
	return made;
}

// last, when all of the above is there
const place = document.getElementById('again');
if (place) offer(place);
