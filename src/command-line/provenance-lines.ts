import { cautionsOf, type Doubts } from '../../shared/study/doubts.ts';
import type { Provenance } from '../../shared/study/result.ts';
import { capital } from '../../shared/words/capital.ts';
import { count } from '../../shared/words/figures.ts';
import { quantity } from '../../shared/words/quantity.ts';
import { textWidth, widthOf, wrapText } from './wrap-text.ts';

/** Failed drives named one by one; the JSON names all. */
const failuresShown = 5;

/** What a result's figures rest on and how far they may be trusted, after what is in doubt. */
export const provenanceLines = (provenance: Provenance, delay = delayWords(provenance)): string[] => [
	...cautionLines(provenance),
	...groundLines(provenance, delay),
];

/** The delay that firmware compensates; nothing is said of it where the work was cut short before it was found. */
function delayWords({ compensation, partial, units }: Provenance): string {
	const { halfBus, virtualNeutral } = compensation;
	if (partial && units.finished === 0 && halfBus === 0 && virtualNeutral === 0) return 'not known yet';
	const time = (seconds: number): string => quantity(seconds, 's').replace('\u00a0', ' ');
	return `half-bus ${time(halfBus)}, virtual neutral ${time(virtualNeutral)}`;
}

/** The same without what is in doubt. @param delay what is said of the compensated delay */
export function groundLines(provenance: Provenance, delay = delayWords(provenance)): string[] {
	const { units, failures, compensation: _, ...ground } = provenance;
	return [
		'',
		heading('What this rests on'),
		`Drives     ${count(units.asked)} asked, ${count(units.finished)} finished, ${count(units.failed)} failed; seed ${ground.seed}; version ${ground.version}`,
		`Compensated delay   ${delay}`,
		`Scenario   ${ground.scenarioDigest}`,
		`Result     ${ground.resultDigest}`,
		...failures.slice(0, failuresShown).map(({ unit, message }) => item(`drive ${unit} failed: ${message}`)),
		...(failures.length > failuresShown ? [item(`and ${count(failures.length - failuresShown)} more`)] : []),
		...Object.entries(ground.methods).map(([figure, method]) => item(`${capital(figure)}: ${method}.`)),
		item(
			'These are simulated estimates. Bus voltages and rotating parts are dangerous: local codes, measurement on real hardware and qualified practice decide.',
		),
	];
}

/** What an engineer would question in the scenario and what befell the run, if there is anything. */
export function cautionLines(of: Doubts): readonly string[] {
	const cautions = cautionsOf(of);
	return cautions.length > 0 ? ['', heading('Cautions'), ...cautions.map(item)] : [];
}

/** A title drawn out to the full width. */
export const heading = (title: string): string =>
	`── ${title} ${'─'.repeat(Math.max(0, textWidth - widthOf(title) - 4))}`;

const item = (text: string): string => wrapText(text, { first: '- ', rest: '  ' });
