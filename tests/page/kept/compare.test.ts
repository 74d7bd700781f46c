import { expect, test } from 'vitest';
import { readScenario } from '../../../shared/scenario/read-scenario.ts';
import { compareRecords } from '../../../src/page/model/kept/compare.ts';
import { studyResult } from '../study-fixture.ts';
import { demoText, record, work } from './kept-fixture.ts';

const plain = (text: string): string => text.replaceAll(/[\u00a0\u202f]/g, ' ');

test('two results of the same inputs differ in nothing asked', () => {
	expect(compareRecords(record(), record({ id: 'two' }), readScenario).asked).toEqual([]);
});

test('drives, seed, values, tolerances and conditions that differ are listed with their units', () => {
	const changed = JSON.parse(demoText('fan-24v.json'));
	changed.sensing = {
		...changed.sensing,
		divider: { ...changed.sensing?.divider, top: { value: '10k', mismatch: '0.1 %' } },
	};
	changed.points[2].torque = '90 mN·m';
	const result = studyResult({ seed: 'other', units: { asked: 2000, finished: 2000, failed: 0 } });
	const other = record({ result, work: work({ text: JSON.stringify(changed) }) });
	const rows = compareRecords(record(), other, readScenario).asked.map(({ name, first, second }) => [
		name,
		plain(first),
		plain(second),
	]);
	expect(rows).toContainEqual(['drives', '1000', '2000']);
	expect(rows).toContainEqual(['seed', 'demo', 'other']);
	expect(rows).toContainEqual(['phase divider, top', '22 kΩ', '10 kΩ']);
	expect(rows).toContainEqual([
		'phase divider, top, tolerance',
		'uniform, lot 0 %, mismatch 1 %',
		'uniform, lot 0 %, mismatch 0.1 %',
	]);
	expect(rows).toContainEqual(['load torque at rated', '100 mN·m', '90 mN·m']);
	expect(rows).toHaveLength(5);
});

test('figures stand with their intervals; a point that one lacks leaves its side empty', () => {
	const short = studyResult();
	const other = record({ result: { ...short, points: short.points.slice(0, 2) } });
	const { points } = compareRecords(record(), other, readScenario);
	expect(points.map(({ name }) => name)).toEqual(['slow', 'middle', 'rated']);
	const [slow, , rated] = points;
	expect(slow?.rows.find(({ name }) => name === 'half-bus: 1 drive in 20 exceeds')).toEqual({
		name: 'half-bus: 1 drive in 20 exceeds',
		// an interval is not torn at a line's end
		first: '3.64° (3.50°\u00a0…\u00a03.85°)',
		second: '3.64° (3.50°\u00a0…\u00a03.85°)',
	});
	expect(rated?.rows.every(({ second }) => second === '–')).toBe(true);
});

test('a scenario that cannot be read any more is compared by its figures alone', () => {
	const broken = record({ work: work({ text: '{' }) });
	const { asked, points } = compareRecords(record(), broken, readScenario);
	expect(asked).toEqual([]);
	expect(points).toHaveLength(3);
});
