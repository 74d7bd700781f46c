import { choiceArgument } from '../words/study-arguments.ts';
import type { Calculation, Report } from './report.ts';

/** The command lines that give a report's figures again, on any machine. */
export function reproduceLines({
	calculations,
	scenario,
}: Pick<Report, 'calculations' | 'scenario'>): readonly string[] {
	return calculations.map((one) => {
		const options = [
			...optionsOf(
				one,
				scenario.points.map(({ name }) => name),
			),
			['seed', one.asked.seed] as const,
		];
		return `npm run --silent ${one.name} -- scenario.json ${options.map(([name, value]) => `--${name} ${quoted(value)}`).join(' ')}`;
	});
}

function optionsOf(one: Calculation, points: readonly string[]): readonly (readonly [name: string, value: string])[] {
	switch (one.name) {
		case 'study': {
			const { units, until } = one.asked;
			const stop: (readonly [string, string])[] =
				until.rule === 'number'
					? []
					: until.rule === 'settled'
						? [
								['until', 'settled'],
								['digits', String(until.digits)],
							]
						: [
								['until', 'decided'],
								['choice', choiceArgument(until.choices)],
							];
			return [['units', String(units)], ...stop];
		}
		case 'envelope':
			return [
				['units', String(one.asked.units)],
				['combinations', String(one.asked.combinations)],
			];
		case 'origins':
			return [
				['point', points[one.asked.point] ?? ''],
				['rows', String(one.asked.rows)],
				['units', String(one.asked.units)],
			];
		case 'budgets':
			return [
				['point', points[one.asked.point] ?? ''],
				['units', String(one.asked.units)],
			];
		case 'grades':
			return [
				['group', one.asked.group],
				['grades', one.asked.grades.map(({ name }) => name).join(', ')],
				['units', String(one.asked.units)],
			];
		case 'weakest':
			return [['units', String(one.asked.units)]];
	}
}

/** As a POSIX shell reads it back whole. */
const quoted = (value: string): string =>
	/^[\w.,:@%+-]+$/.test(value) ? value : `'${value.replaceAll("'", `'\\''`)}'`;
