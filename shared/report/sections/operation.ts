import type { NumberRecord } from '../../parameters/parameter.ts';
import { parameters } from '../../parameters/parameters.ts';
import { nominalFigures } from '../../scenario/nominal-figures.ts';
import type { OperatingPoint, Scenario } from '../../scenario/scenario.ts';
import { rangeWords } from '../../words/conditions.ts';
import { evenQuantity, quantity } from '../../words/quantity.ts';
import { html, type Markup } from '../html.ts';
import type { Report } from '../report.ts';
import { type Section, section } from '../section.ts';
import { table } from '../table.ts';

/** The conditions of every point with their ranges, and what an engineer works out on paper about the nominal drive there. */
export const operation = ({ scenario }: Report): Section =>
	section('operation', 'Operating points', html`${conditionTable(scenario)}${nominalTable(scenario)}`);

const conditions = parameters.filter(
	(record): record is NumberRecord => record.kind !== 'choice' && record.role === 'condition',
);

function conditionTable({ points }: Scenario): Markup {
	const hours = points.reduce((sum, point) => sum + (point.values['operation.share'] ?? 1), 0);
	const words = (record: NumberRecord, { values, ranges }: OperatingPoint): string => {
		const value = values[record.id] ?? Number.NaN;
		if (record.id === 'operation.share') return `${((100 * value) / hours).toFixed(1)}\u00a0%`;
		return `${quantity(value, record.unit, 6)}${rangeWords(record, ranges[record.id])}`;
	};
	return table({
		caption: 'Conditions, and the range each is swept through from start to start',
		head: ['', ...points.map(({ name }) => name)],
		rows: conditions.map((record) => ({ cells: [record.name, ...points.map((point) => words(record, point))] })),
		notes: [
			'A condition without ± is exact. Values inside a range are uniform; carrier and ripple phase are spread evenly over the starts of a drive.',
		],
	});
}

function nominalTable({ points, values }: Scenario): Markup {
	const figures = points.map((point) => nominalFigures({ ...values, ...point.values }));
	type Nominal = (typeof figures)[0];
	const row = (label: string, words: (one: Nominal) => string) => ({ cells: [label, ...figures.map(words)] });
	const angle = ({ degreesPerSecond }: Nominal, seconds: number): string =>
		evenQuantity(seconds * degreesPerSecond, '°', 3);
	return table({
		caption: 'What one works out on paper about the nominal drive there',
		head: ['', ...points.map(({ name }) => name)],
		rows: [
			row('peak phase EMF', ({ emf }) => quantity(emf, 'V', 3)),
			row('conducted current', ({ current }) => quantity(current, 'A', 3)),
			row('duty', ({ duty }) => `${(100 * duty).toFixed(0)}\u00a0%`),
			row('PWM periods in a sector', ({ sector, period }) => (sector / period).toFixed(1)),
			row('one PWM period is worth', (one) => angle(one, one.period)),
			row('slope of the EMF at its crossing, per degree', ({ emfSlope }) => quantity(emfSlope, 'V', 3)),
			row('the same behind the phase divider', ({ emfSlope, dividerGain }) => quantity(emfSlope * dividerGain, 'V', 3)),
			row('freewheel after a commutation (R neglected)', (one) => angle(one, one.freewheel)),
		],
	});
}
