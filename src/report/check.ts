import { carriedIds } from '../../shared/report/carried.ts';
import type { Calculation } from '../../shared/report/report.ts';
import { count } from '../../shared/words/figures.ts';
import { createPool } from '../host/pool.ts';
import { webWorkerHost } from '../host/web-worker-host.ts';
import { computeAgain } from './compute-again.ts';

/*
 * The program that a report carries and runs in its own page when a reader asks
 * for it: computes the figures again and says whether every digit is the same.
 */

const titles: Readonly<Record<Calculation['name'], string>> = {
	study: 'the study',
	envelope: 'the envelope',
	origins: 'origins of the spread',
	budgets: 'budgets',
	grades: 'grades',
	weakest: 'the likeliest failing drive',
};

const text = (id: string): string => document.getElementById(id)?.textContent ?? '';

/** A button for the study, one for everything, one to stop. */
function offer(host: HTMLElement, calculations: readonly Calculation[]): void {
	const buttons = element('p', 'buttons');
	const list = element('ul', 'again-list');
	const said = element('p', 'said');
	said.setAttribute('role', 'status');
	const again = new Blob([text(carriedIds.worker)], { type: 'text/javascript' });
	const workerAddress = URL.createObjectURL(again);
	const whole = calculations.filter(({ result }) => !result.provenance.partial);
	const cut = calculations.length - whole.length;
	let running: AbortController | null = null;

	const run = async (chosen: readonly Calculation[]): Promise<void> => {
		running = new AbortController();
		list.replaceChildren();
		said.className = 'said';
		show();
		const pool = createPool(webWorkerHost(() => new Worker(workerAddress)));
		let same = true;
		let figures = 0;
		try {
			for (const one of chosen) {
				const line = element('li');
				list.append(line);
				const title = titleOf(one);
				const comparison = await computeAgain(text(carriedIds.scenario), one, pool, {
					signal: running.signal,
					onProgress: ({ asked, finished, failed }) => {
						line.textContent = `${title}: ${count(finished + failed)} of ${count(asked)} drives`;
					},
				});
				if (running.signal.aborted) {
					line.textContent = `${title}: stopped.`;
					break;
				}
				figures += comparison.figures;
				const { length } = comparison.differences;
				line.textContent =
					length === 0
						? `${title}: all ${count(comparison.figures)} figures are the same to the last digit, result digest included.`
						: `${title}: ${count(length)} of ${count(comparison.figures)} figures differ. The first: ${comparison.differences
								.slice(0, 5)
								.map(({ path, before, now }) => `${path} is ${before} here and ${now} again`)
								.join('; ')}.`;
				same &&= length === 0;
			}
			const isStopped = running.signal.aborted;
			said.textContent = isStopped
				? 'Stopped: nothing is said of what was not finished.'
				: same
					? `Every digit agrees: ${count(figures)} figures computed again.`
					: 'Not every digit agrees: this file was changed, or this browser computes otherwise.';
			if (!isStopped) said.classList.add(same ? 'same' : 'other');
		} catch (error) {
			said.textContent = `It could not be computed again: ${error instanceof Error ? error.message : String(error)}.`;
			said.classList.add('other');
		} finally {
			pool.close();
			running = null;
			show();
		}
	};

	const button = (words: string, act: () => void, isStop = false): HTMLButtonElement => {
		const made = element('button') as HTMLButtonElement;
		made.type = 'button';
		made.textContent = words;
		made.dataset.stop = String(isStop);
		made.addEventListener('click', act);
		return made;
	};
	const show = (): void => {
		for (const one of buttons.querySelectorAll('button'))
			one.disabled = (one.dataset.stop === 'true') === (running === null);
	};
	const studies = whole.filter(({ name }) => name === 'study');
	if (studies.length > 0) buttons.append(button('Compute the study again', () => void run(studies)));
	if (whole.length > studies.length) {
		buttons.append(button(`Compute all ${whole.length} calculations again`, () => void run(whole)));
	}
	if (whole.length > 0) buttons.append(button('Stop', () => running?.abort(), true));
	if (cut > 0)
		said.textContent = `${count(cut)} calculations were cut short and cannot be computed again as they stand.`;
	host.append(buttons, list, said);
	show();
	const [first] = buttons.querySelectorAll('button');
	first?.focus();
	first?.click();
}

const titleOf = ({ name, asked, result }: Calculation): string =>
	'point' in asked && 'point' in result ? `${titles[name]} at ${result.point}` : titles[name];

function element(name: string, className = ''): HTMLElement {
	const made = document.createElement(name);
	made.className = className;
	return made;
}

// last, when all of the above is there
const place = document.getElementById('again');
if (place) offer(place, JSON.parse(text(carriedIds.calculations)) as readonly Calculation[]);
