import { choiceNames } from '../../drive/drive.ts';
import { parameters } from '../../parameters/parameters.ts';
import { nominalFigures } from '../../scenario/nominal-figures.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { readingGridSpread } from '../../study/reading-grid.ts';
import { count, degrees, power } from '../../words/figures.ts';
import { choiceWords } from '../../words/names.ts';
import { quantity } from '../../words/quantity.ts';
import { html, type Markup } from '../html.ts';
import { type Report, studyOf } from '../report.ts';
import { type Section, section } from '../section.ts';
import { table } from '../table.ts';

type Size = readonly [what: string, size: string];

/*
 * What the model leaves out or approximates, and how large that is: the table
 * of shared/drive/MODEL.md, for the first demo's nominal values unless stated.
 */

const leftOut: readonly Size[] = [
	[
		'saliency (inductance that varies with angle)',
		'It moves the neutral as inductance mismatch between phases does: 10 % in one phase moves crossings by 7.5° at 600 rev/min and 0.2–0.5° at 3000 rev/min. It does so in a perfect motor too.',
	],
	[
		'swings of the speed: it is imposed',
		'Hunting and real loss of synchronism are not seen, so no size can be told; “lost lock” is a limit on the angle error alone.',
	],
	['noise that is correlated from reading to reading', 'Not known; it makes votes worth less than here.'],
	['input leakage, skew between converter channels', 'For each µA and each µs in the table above.'],
	[
		'temperature rise within a run',
		'The temperatures of the operating point hold throughout; a study at others shows what they change.',
	],
];

const approximated: readonly Size[] = [
	[
		'loading of the open terminal by divider and star (≈ 19 kΩ on ≈ 0.5 Ω and 0.5 mH)',
		'3·10⁻⁵ of the open phase’s EMF and 28 ns: below 0.003°',
	],
	['a sensing node is started 18 time constants before it is read', 'e⁻¹⁸ = 1.5·10⁻⁸ of its voltage, 6·10⁻⁸ V'],
	['ringing older than 40 of its decays', '4·10⁻¹⁸ of its amplitude'],
	['placing of diode events', 'below 10⁻¹² s'],
	['a margin that dips below zero by less than 1 nA or 1 nV and comes back', 'not an event'],
	["a network's rate within 10⁻⁷ of a winding's decay rate", 'kept 10⁻⁷ apart: below 10⁻⁷ of the node'],
	['work integral with sinusoidal back-EMF (two-point rule)', 'below 3·10⁻⁹ of the work'],
];

/** What was assumed and neglected, with the sizes that can be told for this drive. */
export function assumptions(report: Report): Section {
	const { scenario } = report;
	const { result } = studyOf(report);
	const { compensation } = result.provenance;
	const guessed = assumedTolerances(scenario);
	return section(
		'assumptions',
		'What was assumed and neglected, and how large it is',
		html`
<ul>
<li><strong>Tolerances.</strong> ${
			guessed.length === 0
				? 'Every tolerance that is not zero is marked as measured or from a data sheet.'
				: html`${count(guessed.length)} of the tolerances are marked as <em class="assumed">assumed</em>: guesses until somebody measures. No result is better than they are. They are: ${guessed.join('; ')}.`
		}</li>
<li><strong>Independence.</strong> Parts are independent of each other but for what a lot has in common; nothing else, such as a temperature gradient over the board, ties them together.</li>
<li><strong>Noise</strong> is Gaussian and independent from reading to reading. Votes lean on that: correlated noise makes them worth less than here.</li>
<li><strong>Firmware.</strong> The delay that is compensated: ${choiceNames.map((choice) => `${choiceWords[choice]} ${quantity(compensation[choice], 's')}`).join(', ')}${scenario.values['detection.compensation'] === 'nominal' ? `, each choice’s own mean delay of the nominal drive at ${scenario.points[scenario.referencePoint]?.name}` : ', as stated'}.</li>
<li><strong>Time.</strong> A run is ${count(Number(scenario.values['trial.warmup']))} sectors of warm-up, ${count(Number(scenario.values['trial.settle']))} to settle and ${count(Number(scenario.values['trial.measured']))} measured. Ageing and drift of parts are in no figure beyond what the tolerances hold.</li>
</ul>
${ownSizes(scenario)}
${sizeTable('What the model leaves out', leftOut)}
${sizeTable('What the model approximates', approximated)}`,
	);
}

const sizeTable = (caption: string, rows: readonly Size[]): Markup =>
	table({
		caption: `${caption}; sizes for a 24 V fan of 0.35 Ω, 350 µH and 4 pole pairs unless stated`,
		head: ['', 'Size'],
		words: [1],
		kind: 'prose',
		rows: rows.map((cells) => ({ cells })),
	});

/** Names of the parts whose tolerance is a guess and not nothing. */
function assumedTolerances({ tolerances }: Scenario): readonly string[] {
	return parameters.flatMap(({ id, name }) => {
		const tolerance = tolerances[id];
		return tolerance && tolerance.basis === 'assumed' && (tolerance.lot > 0 || tolerance.mismatch > 0) ? [name] : [];
	});
}

/** Sizes that follow from this scenario's own values. */
function ownSizes(scenario: Scenario): Markup {
	const { points, values } = scenario;
	const n = (id: string): number => Number(values[id]);
	const [top, bottom] = [n('sensing.divider.top'), n('sensing.divider.bottom')];
	const load = 1 / (1 / (top + bottom) + 1 / n('sensing.virtualNeutral.star'));
	const winding = 1.5 * n('motor.phaseResistance');
	const at = (point: (typeof points)[0]) => nominalFigures({ ...values, ...point.values });
	const row = (label: string, words: (point: (typeof points)[0]) => string) => ({
		cells: [label, ...points.map(words)],
	});
	return table({
		caption: 'Sizes for this drive',
		head: ['', ...points.map(({ name }) => name)],
		rows: [
			row('time between readings alone spreads crossings by (standard deviation; it is in all figures)', (point) =>
				degrees(readingGridSpread({ ...values, ...point.values })),
			),
			row('loading of the open terminal, share of its EMF (neglected)', () => power(winding / load)),
			row('the same as an angle after the winding’s time constant (neglected)', (point) =>
				quantity(((1.5 * n('motor.phaseInductance')) / load) * at(point).degreesPerSecond, '°', 2),
			),
			row('1 µA of input leakage at a phase divider, over the slope behind it (not modelled)', (point) => {
				const { emfSlope, dividerGain } = at(point);
				return quantity((1e-6 * ((top * bottom) / (top + bottom))) / (emfSlope * dividerGain), '°', 2);
			}),
			row('1 µs of skew between the two channels, at most (not modelled)', (point) =>
				quantity(1e-6 * at(point).degreesPerSecond, '°', 2),
			),
		],
	});
}
