import { jsonText } from '../results/json-text.ts';
import { sha256 } from '../scenario/digest.ts';
import { html, type Markup, raw } from './html.ts';
import type { Report } from './report.ts';

/** The program that a report carries: plain JavaScript, each part whole in itself. */
export interface CarriedProgram {
	/** What the page runs when a reader asks for it. */
	readonly check: string;
	/** What it starts its workers with. */
	readonly worker: string;
}

/** What a report holds in figures. */
export type CarriedFigures = Pick<Report, 'calculations' | 'missing' | 'isCutShort' | 'modelChecks'>;

/** The ids of the parts in the page, by which its own script finds them. */
export const carriedIds = {
	scenario: 'carried-scenario',
	figures: 'carried-figures',
	check: 'carried-check',
	worker: 'carried-worker',
} as const;

/**
 * The scenario, all results with every digit, and the program, as text that no
 * browser runs or shows by itself.
 */
export function carried(
	{ scenarioText, calculations, missing, isCutShort, modelChecks }: Report,
	program: CarriedProgram,
): Markup {
	const figures: CarriedFigures = { calculations, missing, isCutShort, modelChecks };
	return html`
<script type="application/json" id="${carriedIds.scenario}">${raw(inertJson(scenarioText))}</script>
<script type="application/json" id="${carriedIds.figures}">${raw(inertJson(jsonText(figures)))}</script>
<script type="text/plain" id="${carriedIds.check}">${raw(inertCode(program.check))}</script>
<script type="text/plain" id="${carriedIds.worker}">${raw(inertCode(program.worker))}</script>`;
}

/** SHA-256 over the engine as it stands in the page, of both parts one after the other. */
export const carriedDigest = ({ check, worker }: CarriedProgram): Promise<string> =>
	sha256(new TextEncoder().encode(inertCode(check) + inertCode(worker)));

/** JSON in which no end of a script can stand: "<" is written by its number, which a reader of JSON takes for the same. */
export const inertJson = (json: string): string => json.replaceAll('<', '\\u003c');

/** JavaScript in which no end of a script stands: inside texts and regular expressions, the only places for one, the backslash changes nothing. */
const inertCode = (code: string): string => code.replace(/<\/(?=script)/gi, '<\\/').replaceAll('<!--', '<\\!--');
