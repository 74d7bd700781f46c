import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CoverageCount, countCoverage, coverageCases, coverageOf } from './coverage-cases.ts';

/**
 * Coverage of the approximate intervals, counted over 20,000 replicates and kept
 * in coverage.json. Run with COVERAGE set to part of a case's name to count it
 * anew, or to "full" for all (some minutes).
 */
const file = new URL('coverage.json', import.meta.url);
const replicates = 20_000;
const shortRun = 100;
const recount = process.env.COVERAGE ?? '';

const isOrdinary = (name: string): boolean => coverageCases.some((each) => each.name === name && each.ordinary);

interface Entry extends CoverageCount {
	readonly coverage: number;
	readonly firstHundred: CoverageCount;
}
const committed: Record<string, Entry> = recount === 'full' ? {} : JSON.parse(readFileSync(file, 'utf8'));

if (recount) {
	it('writes coverage.json', { timeout: 3_600_000 }, () => {
		const entries = coverageCases.map((each) => {
			const kept = committed[each.name];
			if (kept && !each.name.includes(recount)) return [each.name, kept];
			const count = countCoverage(each, replicates);
			const coverage = Math.round(1e4 * coverageOf(count)) / 1e4;
			return [each.name, { coverage, ...count, firstHundred: countCoverage(each, shortRun) }];
		});
		writeFileSync(file, `${JSON.stringify(Object.fromEntries(entries), null, '\t')}\n`);
		expect(entries.length).toBe(coverageCases.length);
	});
}

describe.runIf(!recount)('coverage of 95 % intervals', () => {
	it.each(coverageCases.map((each) => each.name))('%s: the first 100 replicates come out as committed', (name) => {
		const each = coverageCases.find((one) => one.name === name) as (typeof coverageCases)[number];
		expect(countCoverage(each, shortRun)).toEqual(committed[name]?.firstHundred);
	});

	it('every case was counted over 20,000 replicates, and no other', () => {
		expect(Object.keys(committed)).toEqual(coverageCases.map((each) => each.name));
		for (const { held, above, below, silent } of Object.values(committed)) {
			expect(held + above + below + silent).toBe(replicates);
		}
	});

	it.each([
		[
			'where ten or more units are affected, rates, their ratios and shares',
			(name: string) => isOrdinary(name),
			0.94,
			0.96,
		],
		['below that, rates', (name: string) => name.startsWith('rate over') && !isOrdinary(name), 0.76, 0.99],
		['the median and the 95 % quantile', (name: string) => /^median|^95 % quantile/.test(name), 0.948, 0.97],
		['sensitivity indices at 500 rows', (name: string) => name.startsWith('sensitivity'), 0.94, 0.96],
		[
			'changes of a spread, of normal figures and of what parts within tolerances add up to',
			(name: string) => /^change of a spread: (normal|three)/.test(name),
			0.945,
			0.955,
		],
		[
			'changes of a spread, of lognormal figures',
			(name: string) => name.startsWith('change of a spread: lognormal'),
			0.915,
			0.945,
		],
		[
			'all 40 looks of a sequence with the share on the limit',
			(name: string) => name.startsWith('confidence'),
			0.95,
			1,
		],
	])('%s: held in a share between the limits that the docs state', (_, belongs, low, high) => {
		const found = coverageCases.filter((each) => belongs(each.name));
		expect(found.length).toBeGreaterThan(1);
		for (const { name } of found) {
			expect(committed[name]?.coverage, name).toBeGreaterThanOrEqual(low);
			expect(committed[name]?.coverage, name).toBeLessThanOrEqual(high);
		}
	});

	it('the counting finds 90 % for an interval known to have 90 %, within 3 standard errors', () => {
		const { coverage } = committed['control: known 90 % interval of a normal value'] as Entry;
		expect(Math.abs(coverage - 0.9)).toBeLessThan(3 * Math.sqrt((0.9 * 0.1) / replicates));
	});
});
