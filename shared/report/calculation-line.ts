import { count } from '../words/figures.ts';
import { html, type Markup } from './html.ts';
import type { CalculationName } from './report.ts';

/** What a calculation of its own rests on. */
export function calculationLine(
	name: CalculationName,
	{
		units,
		partial,
		seed,
		resultDigest,
	}: {
		readonly units: { readonly asked: number; readonly finished: number; readonly failed: number };
		readonly partial: boolean;
		readonly seed: string;
		readonly resultDigest: string;
	},
): Markup {
	const failed = units.failed > 0 ? `, ${count(units.failed)} of them could not be simulated` : '';
	return html`<p class="note">${partial && html`<strong>Cut short before it was finished.</strong> `}Calculation ${name}: ${count(units.finished + units.failed)} of ${count(units.asked)} simulated drives${failed}, seed ${seed}, result <code>${resultDigest.slice(0, 16)}…</code></p>`;
}
