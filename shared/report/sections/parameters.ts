import type { Group, ParameterRecord, Tolerance } from '../../parameters/parameter.ts';
import { parameters } from '../../parameters/parameters.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { quantity } from '../../words/quantity.ts';
import { isVarying, toleranceWords } from '../../words/tolerance.ts';
import { type Content, html } from '../html.ts';
import type { Report } from '../report.ts';
import { type Section, section } from '../section.ts';
import { isStated } from '../stated.ts';
import { type TableRow, table } from '../table.ts';

const groupTitles: Readonly<Record<Group, string>> = {
	motor: 'Motor',
	inverter: 'Inverter',
	operation: 'Operation',
	supply: 'Supply',
	divider: 'Phase dividers',
	halfBus: 'Half-bus threshold',
	virtualNeutral: 'Virtual neutral',
	comparator: 'Comparator and converter',
	detection: 'Detection and firmware',
	noise: 'Noise and ringing',
	trial: 'How a drive is run',
	requirement: 'Requirement',
};

/** Every parameter with its tolerance, distribution and where the tolerance comes from; guesses stand out. */
export function allParameters({ scenario, scenarioText }: Report): Section {
	// what belongs to a point is in the table of operating points
	const own = parameters.filter(({ role }) => role !== 'condition');
	const rows = Object.entries(groupTitles).flatMap(([group, title]): readonly TableRow[] => {
		const records = own.filter((record) => record.group === group);
		const lines = records.map((record) => parameterRow(record, scenario, isStated(scenarioText, record.id)));
		return lines.length > 0 ? [{ group: title }, ...lines] : [];
	});
	return section(
		'parameters',
		'Every parameter',
		html`<p>Tolerances are half-widths: <em>lot</em> is the deviation that all instances in one drive share, <em>mismatch</em> the
one drawn for each. A <em>normal</em> one is 3σ wide and cut off there; a <em>gapped</em> one is normal with the next tighter grade
picked out. Where no tolerance stands, the value is taken as exact in every drive. Tolerances whose basis is <em class="assumed">assumed</em> are guesses. A value marked <span class="default">default</span>
is not stated in the scenario file and was taken as it comes with the program. Conditions are in the table of operating points.</p>
${table({
	caption: 'Parameters and tolerances',
	head: ['Parameter', 'value', 'lot ±', 'mismatch ±', 'distribution', 'basis of the tolerance'],
	words: [4, 5],
	kind: 'dense',
	rows,
})}`,
	);
}

function parameterRow(record: ParameterRecord, scenario: Scenario, stated: boolean): TableRow {
	const value = scenario.values[record.id];
	const tolerance = scenario.tolerances[record.id];
	const varies = tolerance !== undefined && isVarying(tolerance);
	const isGuess = varies && tolerance.basis === 'assumed';
	return {
		level: 1,
		mark: isGuess ? 'guess' : '',
		cells: [
			html`${record.name} ${symbolOf(record)}${record.kind !== 'choice' && record.instances > 1 && html`<small>${record.instances} instances</small>`}`,
			html`${valueWords(record, value)}${!stated && html` <span class="default">default</span>`}`,
			...toleranceCells(record, tolerance),
		],
	};
}

/** A symbol with what follows its "_" set low. */
function symbolOf({ symbol }: ParameterRecord): Content {
	const [letter, low] = symbol.split('_');
	return symbol !== '–' && html`<i>${letter}</i>${low && html`<sub>${low}</sub>`}`;
}

function valueWords(record: ParameterRecord, value: number | string | undefined): string {
	if (record.kind === 'choice' || typeof value !== 'number') return String(value ?? '–');
	return quantity(value, record.unit, 8);
}

function toleranceCells(record: ParameterRecord, tolerance: Tolerance | undefined): readonly Content[] {
	if (record.kind === 'choice' || tolerance === undefined) return ['', '', '', ''];
	if (!isVarying(tolerance)) return ['exact', '', '', ''];
	const { lot, mismatch, spread, basis } = toleranceWords(record, tolerance);
	return [lot, mismatch, spread, basis === 'assumed' ? html`<em class="assumed">assumed</em>` : basis];
}
