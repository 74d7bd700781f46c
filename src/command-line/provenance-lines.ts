import { cautionsOf, type Doubts } from '../../shared/study/doubts.ts';
import type { Provenance } from '../../shared/study/result.ts';
import { count } from '../../shared/words/figures.ts';
import { quantity } from '../../shared/words/quantity.ts';
import { textWidth, widthOf, wrapText } from './wrap-text.ts';

/** Failed drives named one by one; the JSON names all. */
const failuresShown = 5;

/** What a result's figures rest on and how far they may be trusted, after what is in doubt. */
export const provenanceLines = (provenance: Provenance): string[] => [
	...cautionLines(provenance),
	...groundLines(provenance),
];

/** The same without what is in doubt. */
export function groundLines({ units, failures, compensation, ...ground }: Provenance): string[] {
	const time = (seconds: number): string => quantity(seconds, 's').replace('\u00a0', ' ');
	return [
		'',
		heading('What this rests on'),
		`Drives     ${count(units.asked)} asked, ${count(units.finished)} finished, ${count(units.failed)} failed; seed ${ground.seed}; version ${ground.version}`,
		`Compensated delay   half-bus ${time(compensation.halfBus)}, virtual neutral ${time(compensation.virtualNeutral)}`,
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

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
