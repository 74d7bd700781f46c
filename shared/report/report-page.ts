import { toBase64 } from '../results/base64.ts';
import { sha256 } from '../scenario/digest.ts';
import { type CarriedProgram, carried } from './carried.ts';
import type { DrawChart } from './drawing.ts';
import { html, type Markup, markupOf, raw } from './html.ts';
import { pageScript } from './page-script.ts';
import { type Report, studyOf } from './report.ts';
import { drawSection, type Section } from './section.ts';
import { budgets } from './sections/budgets.ts';
import { cautions } from './sections/cautions.ts';
import { envelope } from './sections/envelope.ts';
import { grades } from './sections/grades.ts';
import { methods } from './sections/methods.ts';
import { assumptions } from './sections/neglected.ts';
import { operation } from './sections/operation.ts';
import { origins } from './sections/origins.ts';
import { allParameters } from './sections/parameters.ts';
import { points } from './sections/points.ts';
import { question } from './sections/question.ts';
import { rates } from './sections/rates.ts';
import { reproduce } from './sections/reproduce.ts';
import { terms } from './sections/terms.ts';
import { verdict } from './sections/verdict.ts';
import { weakest } from './sections/weakest.ts';
import { worst } from './sections/worst.ts';
import { marginText, reportStyle } from './style.ts';

/** One self-contained page that can be read, printed and kept: everything shown, and everything needed to compute it again. */
export async function reportPage(report: Report, draw: DrawChart, program: CarriedProgram): Promise<string> {
	const sections = [
		question(report),
		verdict(report),
		operation(report),
		terms(report),
		await points(report, draw),
		rates(report),
		worst(report),
		envelope(report),
		origins(report),
		budgets(report),
		grades(report),
		weakest(report),
		assumptions(report),
		allParameters(report),
		methods(report),
		await reproduce(report, program),
		cautions(report),
	];
	const title = `${report.scenario.name}: evidence for a release review`;
	const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${await policy()}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="only light">
<title>${title}</title>
<style>${raw(reportStyle + runningHead(report))}</style>
</head>
<body>
${raw(hatch)}
${head(report)}
${contents(sections)}
<main>${sections.map(drawSection)}</main>
${carried(report, program)}
<script>${raw(pageScript)}</script>
</body>
</html>
`;
	return markupOf(page);
}

/** Nothing is loaded from anywhere; of scripts only the page's own runs, and what it starts from the page's own text. */
async function policy(): Promise<string> {
	const hex = await sha256(new TextEncoder().encode(pageScript));
	const bytes = Uint8Array.from(hex.match(/../g) ?? [], (byte) => Number.parseInt(byte, 16));
	return `default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-${toBase64(bytes)}' blob:; worker-src blob:; base-uri 'none'; form-action 'none'`;
}

const hatch =
	'<svg class="hatch" aria-hidden="true"><pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0v5" stroke="#ad5200" stroke-width="1.6" stroke-opacity=".55"/></pattern></svg>';

function head(report: Report): Markup {
	const { provenance } = studyOf(report).result;
	return html`
<header>
<p class="kind">Evidence for a release review: simulated estimates</p>
<h1>${report.scenario.name}: half-bus against virtual-neutral sensing</h1>
<dl>
<div><dt>Program</dt><dd>Anglespread ${provenance.version}</dd></div>
<div><dt>Seed</dt><dd>${provenance.seed}</dd></div>
<div><dt>Scenario</dt><dd><code>${provenance.scenarioDigest}</code></dd></div>
<div><dt>Result</dt><dd><code>${provenance.resultDigest || 'not finished'}</code></dd></div>
</dl>
</header>`;
}

/** On every printed page: of which study it is, should it come loose. */
function runningHead(report: Report): string {
	const { scenario, seed, resultDigest } = studyOf(report).result.provenance;
	const box = (place: string, words: string): string => `@${place}{content:${cssText(words)};${marginText}}`;
	return `@page{${box('top-left', `${scenario}, seed ${seed}`)}${box('top-right', resultDigest ? `result ${resultDigest.slice(0, 16)}…` : 'not finished')}}`;
}

/** A text in a style sheet (CSS Syntax 3, 4.3.7): whatever could end it, or the element around it, is written by its number. */
const cssText = (words: string): string =>
	`"${words.replace(/[^\w .,…]/gu, (sign) => `\\${sign.codePointAt(0)?.toString(16)} `)}"`;

const contents = (sections: readonly Section[]): Markup => html`
<nav aria-label="Contents"><ol>${sections.map(
	({ id, title, isComputed }) => html`<li class="${isComputed ? '' : 'absent'}"><a href="#${id}">${title}</a></li>`,
)}</ol></nav>`;
