import { beforeAll, expect, test } from 'vitest';
import { askFurther, furtherNames } from '../../shared/report/ask.ts';
import type { Report } from '../../shared/report/report.ts';
import { reportPage } from '../../shared/report/report-page.ts';
import { browserHost } from '../../src/host/browser-host.ts';
import { createPool } from '../../src/host/pool.ts';
import { runStudyInPool } from '../../src/host/run-study.ts';
import { comparePrint, differingParts } from '../../src/report/compare-print.ts';
import { gatherReport } from '../../src/report/gather-report.ts';
import { smallScenario, smallScenarioText } from '../study/small-scenario.ts';

const program = { check: 'check', worker: 'worker' };
let report: Report;
/** The page as its file has it, every chart a drawing. */
let text: string;

const parsed = (): Document => new DOMParser().parseFromString(text, 'text/html');

beforeAll(async () => {
	const scenario = smallScenario();
	const signal = new AbortController().signal;
	const asked = { seed: 'compared', units: 12, until: { rule: 'number' } } as const;
	const pool = createPool(browserHost());
	try {
		const result = await runStudyInPool({ scenario, ...asked, signal }, pool);
		const gathered = await gatherReport(
			{
				scenario,
				study: { asked, result },
				further: askFurther(furtherNames, scenario, asked),
				signal,
				onProgress() {},
			},
			pool,
		);
		report = { ...gathered, scenarioText: smallScenarioText() };
	} finally {
		pool.close();
	}
	text = await reportPage(report, async () => '<svg><path d="M0 1"/></svg>', program);
}, 280_000);

/** Headings of the parts that are told where the page is as `change` leaves it. */
const toldOf = (change: (shown: Document) => void): Promise<readonly string[]> => {
	const shown = parsed();
	change(shown);
	return comparePrint(report, program, shown);
};

const changedDigit = (words: string, at: number): string =>
	`${words.slice(0, at)}${(Number(words[at]) + 1) % 10}${words.slice(at + 1)}`;

const titleAbove = (node: Node): string | null | undefined =>
	node.parentElement?.closest('main > section')?.querySelector('h2')?.textContent;

test('unchanged, nothing is told', async () => {
	expect(await toldOf(() => {})).toEqual([]);
});

test('in every cell of every table that holds a number, a changed digit is told with the heading that it stands under', () => {
	const [shown, made] = [parsed(), parsed()];
	const walker = shown.createTreeWalker(shown.body, NodeFilter.SHOW_TEXT);
	const found = new Map<string, number>();
	for (let node = walker.nextNode(); node; node = walker.nextNode()) {
		const words = node.nodeValue ?? '';
		const title = titleAbove(node);
		if (!title || !node.parentElement?.closest('table')) continue;
		const last = words.search(/\d\D*$/);
		if (last < 0) continue;
		node.nodeValue = changedDigit(words, last);
		expect({ words: node.nodeValue, told: differingParts(shown, made) }).toEqual({
			words: node.nodeValue,
			told: [title],
		});
		node.nodeValue = words;
		found.set(title, (found.get(title) ?? 0) + 1);
	}
	// every part that has tables of figures
	expect([...found.keys()]).toEqual([
		'The verdict',
		'Operating points',
		'Each operating point in pictures and figures',
		'Crossings gone wrong per operating hour',
		'The worst drives and their waveforms',
		'The envelope of conditions',
		'Where the spread comes from',
		'The classical tolerance budgets',
		'What grade of resistor is enough',
		'The likeliest failing drive',
		'What was assumed and neglected, and how large it is',
		'Every parameter',
	]);
	expect([...found.values()].reduce((sum, one) => sum + one, 0)).toBeGreaterThan(1000);
}, 240_000);

test('a waveform, a bar in a table and a sentence are compared too', async () => {
	const moved = (selector: string, name: string) => (shown: Document) => {
		const place = shown.querySelector(selector) as Element;
		const value = place.getAttribute(name) ?? '';
		place.setAttribute(name, changedDigit(value, value.search(/\d/)));
	};
	expect(await toldOf(moved('svg.waveform .trace', 'd'))).toEqual(['The worst drives and their waveforms']);
	expect(await toldOf(moved('svg.waveform .readings circle', 'cy'))).toEqual(['The worst drives and their waveforms']);
	expect(await toldOf(moved('table svg.bar rect', 'width'))).toEqual(['Where the spread comes from']);
	const words = (shown: Document): Element => shown.querySelector('#points .point > p') as Element;
	expect(
		await toldOf((shown) => {
			const { textContent } = words(shown);
			words(shown).textContent = changedDigit(textContent ?? '', (textContent ?? '').search(/\d/));
		}),
	).toEqual(['Each operating point in pictures and figures']);
});

// as the report says itself, under "Compute it again in this file"
test('of a chart its description is compared and its drawing is not', async () => {
	const chart = (shown: Document): Element => shown.querySelector('.pictures [role="img"]') as Element;
	expect(await toldOf((shown) => chart(shown).setAttribute('aria-label', 'another'))).toEqual([
		'Each operating point in pictures and figures',
	]);
	expect(await toldOf((shown) => chart(shown).querySelector('path')?.setAttribute('d', 'M0 2'))).toEqual([]);
	const reproduce = parsed().querySelector('#reproduce')?.textContent ?? '';
	expect(reproduce).toMatch(/What is not: the four charts of each operating point as they are drawn/);
});
