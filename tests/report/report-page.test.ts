import { createHash } from 'node:crypto';
import { beforeAll, expect, test, vi } from 'vitest';
import { parameters } from '../../shared/parameters/parameters.ts';
import { furtherNames } from '../../shared/report/ask.ts';
import { carriedIds } from '../../shared/report/carried.ts';
import { type Report, studyOf } from '../../shared/report/report.ts';
import { reportPage } from '../../shared/report/report-page.ts';
import { drawChart } from '../../src/report/draw-chart.ts';
import { smallScenario, smallScenarioText } from '../study/small-scenario.ts';
import { gatherOnWorkers } from './small-report.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 240_000 });

/** Blanking below the freewheel: the scenario reader has a caution for it. Two tolerances have a basis other than a guess. */
const changes = {
	detection: { blanking: '1°' },
	motor: { phaseInductance: { value: '350 µH', lot: '10 %', mismatch: '1 %', basis: 'data sheet' } },
	sensing: { comparator: { offset: { value: 0, mismatch: '2 mV', basis: 'measured' } } },
};
const program = { check: 'const end = "</script>";', worker: '/* <!-- */' };
let report: Report;
let page: string;

const write = (of: Report): Promise<string> => reportPage(of, drawChart, program);
const withResult = (over: object): Report => ({
	...report,
	calculations: report.calculations.map((one) =>
		one.name === 'study'
			? { ...one, result: { ...one.result, provenance: { ...one.result.provenance, ...over } } }
			: one,
	),
});
/** The text of a part, tags taken out. */
const partOf = (html: string, id: string): string =>
	(html.match(new RegExp(`<section id="${id}"[\\s\\S]*?(?=\\n<section id=|</main>)`))?.[0] ?? '')
		.replaceAll(/<[^>]+>/g, ' ')
		.replaceAll(/\s+/g, ' ');

beforeAll(async () => {
	report = await gatherOnWorkers({
		scenario: smallScenario(changes),
		scenarioText: smallScenarioText(changes),
		seed: 'a report',
		units: 12,
		further: furtherNames,
	});
	page = await write(report);
});

test('limits of a study that stops by what it finds are not called exact and one-sided', async () => {
	expect(partOf(page, 'verdict')).toContain('Limits on the share are exact and one-sided');
	const limits = 'confidence sequence' as const;
	const looked: Report = {
		...report,
		calculations: report.calculations.map((one) => {
			if (one.name !== 'study') return one;
			const { halfBus, virtualNeutral } = one.result.verdict;
			const verdict = { halfBus: { ...halfBus, limits }, virtualNeutral: { ...virtualNeutral, limits } };
			return { ...one, result: { ...one.result, verdict } };
		}),
	};
	const words = partOf(await write(looked), 'verdict');
	expect(words).toContain('those of a confidence sequence, which hold however often the study was looked at');
	expect(words).not.toContain('exact and one-sided');
});

test('with all five asked for, no part is left out, and the same figures give the same page', async () => {
	expect(page.match(/<h2 /g)).toHaveLength(17);
	expect(page).not.toContain('Not computed for this report');
	expect(page).not.toContain('class="absent"');
	expect(await write(report)).toBe(page);
	for (const { name, result } of report.calculations) {
		if ('sentence' in result)
			expect(partOf(page, name).replaceAll('&#39;', "'")).toContain(result.sentence.replaceAll(/\s+/g, ' '));
	}
});

test('with none asked for, each of the five says so, in its place and in the contents, and how to get it', async () => {
	const bare = await write({ ...report, calculations: report.calculations.filter(({ name }) => name === 'study') });
	for (const name of furtherNames) {
		expect(partOf(bare, name)).toContain('Not computed for this report.');
		expect(partOf(bare, name)).toContain(`--report-with ${name}`);
		expect(bare).toContain(`<li class="absent"><a href="#${name}">`);
	}
	expect(bare.match(/<h2 /g)).toHaveLength(17);
	// charts of both points, and no picture that would have to be fetched
	expect(bare.match(/<div role="img" aria-label="[^"]+"><svg/g)).toHaveLength(10);
	expect(bare).not.toMatch(/<img|<link|@import|src="http/);
});

test('what an interruption cut off is not told as if nobody had asked for it', async () => {
	const kept = report.calculations.filter(({ name }) => name === 'study' || name === 'grades');
	const worst = { halfBus: null, virtualNeutral: null };
	const cut = await write({ ...report, calculations: kept, missing: ['weakest'], isCutShort: true, worst });
	expect(partOf(cut, 'weakest')).toContain('Interrupted before it was computed.');
	expect(partOf(cut, 'weakest')).not.toContain('--report-with');
	expect(partOf(cut, 'envelope')).toContain('--report-with envelope');
	expect(partOf(cut, 'worst')).toContain('the report was interrupted first');
	expect(partOf(cut, 'verdict')).toContain('the study itself is whole');
	expect(partOf(page, 'verdict')).not.toContain('the study itself is whole');
});

test('every parameter is listed; of the tolerances the guesses stand out, and no other does', () => {
	const { tolerances } = report.scenario;
	const part = page.slice(page.indexOf('<section id="parameters"'), page.indexOf('<section id="methods"'));
	const rows = part.match(/<tr class="level-1[\s\S]*?<\/tr>/g) ?? [];
	const listed = parameters.filter(({ role }) => role !== 'condition');
	expect(rows).toHaveLength(listed.length);
	let guesses = 0;
	for (const { id, name } of listed) {
		const row = rows.find((one) => one.includes(`<th scope="row">${name} `)) ?? '';
		const tolerance = tolerances[id];
		const isGuess = tolerance?.basis === 'assumed' && tolerance.lot + tolerance.mismatch > 0;
		expect({ name, marked: /class="level-1 guess"/.test(row) }).toEqual({ name, marked: isGuess });
		expect({ name, told: row.includes('<em class="assumed">assumed</em>') }).toEqual({ name, told: isGuess });
		if (isGuess) guesses += 1;
	}
	expect(guesses).toBeGreaterThan(5);
	expect(partOf(page, 'parameters')).toMatch(/phase inductance L .*350 µH .*data sheet/);
	expect(partOf(page, 'parameters')).toMatch(/comparator offset .*measured/);
	expect(partOf(page, 'assumptions')).toContain(`${guesses} of the tolerances are marked as assumed`);
});

test('cautions of these inputs are pointed to from the verdict and listed at the end', async () => {
	const { warnings } = studyOf(report).result.provenance;
	expect(warnings.length).toBeGreaterThan(0);
	expect(partOf(page, 'verdict')).toMatch(new RegExp(`${warnings.length} cautions? goe?s? ?with these inputs`));
	for (const warning of warnings)
		expect(partOf(page, 'cautions').replaceAll('&#39;', "'")).toContain(warning.replaceAll(/\s+/g, ' '));
	expect(partOf(await write(withResult({ warnings: [] })), 'verdict')).not.toContain('with these inputs');
});

test('a worker that was lost is told of among the cautions, and is no doubt of the inputs', async () => {
	const struck = await write(withResult({ warnings: [], lostWorkers: 'A worker was lost (exit code 3).' }));
	expect(partOf(struck, 'cautions')).toContain('A worker was lost (exit code 3).');
	expect(partOf(struck, 'verdict')).not.toContain('with these inputs');
});

test('a study that was cut short must not be signed', async () => {
	expect(partOf(page, 'verdict')).not.toContain('must not be signed');
	expect(partOf(await write(withResult({ partial: true })), 'verdict')).toContain('must not be signed');
});

test('it states the SHA-256 of the engine that it carries, and every printed page says of which study it is', () => {
	const carried = (id: string): string =>
		page.match(new RegExp(`<script [^>]*id="${id}">([\\s\\S]*?)</script>`))?.[1] ?? '';
	const text = carried(carriedIds.check) + carried(carriedIds.worker);
	expect(text).toBe('const end = "<\\/script>";/* <\\!-- */');
	expect(partOf(page, 'reproduce')).toContain(createHash('sha256').update(text).digest('hex'));
	const head = page.match(/@top-left\{content:"([^"]*)"[^}]*\}@top-right\{content:"result ([0-9a-f]{16})…"/);
	expect(head?.[1]).toBe('small, seed a report');
	expect(studyOf(report).result.provenance.resultDigest.startsWith(head?.[2] ?? '-')).toBe(true);
});

test('words of a scenario cannot end the style that its running head stands in', async () => {
	const odd = await write(withResult({ scenario: 'a"}</style>\n\\b' }));
	expect(odd.split('</style>')).toHaveLength(2);
	expect(odd).toContain('@top-left{content:"a\\22 \\7d \\3c \\2f style\\3e \\a \\5c b, seed a report"');
});
