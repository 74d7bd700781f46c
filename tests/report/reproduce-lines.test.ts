import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { askFurther, furtherNames } from '../../shared/report/ask.ts';
import type { Asked, Calculation } from '../../shared/report/report.ts';
import { reproduceLines } from '../../shared/report/reproduce-lines.ts';
import { smallScenario } from '../study/small-scenario.ts';

const scenario = smallScenario();
const linesOf = (asked: readonly Asked[]): readonly string[] =>
	reproduceLines({ calculations: asked as readonly Calculation[], scenario });

test('a line for the study and for each further calculation, one a point where it is asked at points', () => {
	const seed = 'demo';
	const study: Asked = { name: 'study', asked: { seed, units: 300, until: { rule: 'number' } } };
	expect(linesOf([study, ...askFurther(furtherNames, scenario, { seed, units: 300 })])).toEqual([
		'npm run --silent study -- scenario.json --units 300 --seed demo',
		'npm run --silent envelope -- scenario.json --units 300 --combinations 512 --seed demo',
		'npm run --silent origins -- scenario.json --point fast --rows 150 --units 0 --seed demo',
		'npm run --silent origins -- scenario.json --point faster --rows 150 --units 0 --seed demo',
		'npm run --silent budgets -- scenario.json --point fast --units 300 --seed demo',
		'npm run --silent budgets -- scenario.json --point faster --units 300 --seed demo',
		"npm run --silent grades -- scenario.json --group all --grades '5 %, 2 %, 1 %, 0.5 %, 0.1 %' --units 300 --seed demo",
		'npm run --silent weakest -- scenario.json --units 1200 --seed demo',
	]);
});

test('a study that ends by itself is asked so again', () => {
	const line = (until: Extract<Asked, { name: 'study' }>['asked']['until']): string =>
		linesOf([{ name: 'study', asked: { seed: 's', units: 9, until } }])[0] ?? '';
	expect(line({ rule: 'decided', choices: ['virtualNeutral'] })).toContain('--until decided --choice virtual-neutral ');
	expect(line({ rule: 'decided', choices: ['halfBus', 'virtualNeutral'] })).toContain('--choice both ');
	expect(line({ rule: 'settled', digits: 2 })).toContain('--until settled --digits 2 ');
});

test.each(['it\'s "two" words', '$HOME `id` \\ *', '-x', 'größe;'])('a shell reads the seed %s back whole', (seed) => {
	const line = linesOf([{ name: 'study', asked: { seed, units: 1, until: { rule: 'number' } } }])[0] ?? '';
	const words = execFileSync('sh', ['-c', line.replace('npm run --silent study --', `printf '%s\\n'`)], {
		encoding: 'utf8',
	});
	expect(words.split('\n').at(-2)).toBe(seed);
});
