import { toBase64 } from '../../results/base64.ts';
import { count } from '../../words/figures.ts';
import { type CarriedProgram, carriedDigest, inertJson } from '../carried.ts';
import { html, type Markup } from '../html.ts';
import { type Report, studyOf } from '../report.ts';
import { reproduceLines } from '../reproduce-lines.ts';
import { type Section, section } from '../section.ts';

/** Failed drives named one by one. */
const failuresShown = 10;

/** Seed, digests, version, the line that gives the same figures again, and the button that does so here. */
export async function reproduce(report: Report, program: CarriedProgram): Promise<Section> {
	const { result } = studyOf(report);
	const { version, seed, scenarioDigest, resultDigest, units, failures } = result.provenance;
	return section(
		'reproduce',
		'How to reproduce it',
		html`
<dl class="provenance">
<div><dt>Version of the program</dt><dd>${version}</dd></div>
<div><dt>Seed</dt><dd><code>${seed}</code></dd></div>
<div><dt>Drives</dt><dd>${count(units.asked)} asked, ${count(units.finished)} finished, ${count(units.failed)} failed</dd></div>
<div><dt>Scenario, SHA-256</dt><dd><code>${scenarioDigest}</code></dd></div>
<div><dt>Result, SHA-256</dt><dd><code>${resultDigest || 'none: the study was not finished'}</code></dd></div>
<div><dt>Engine carried, SHA-256</dt><dd><code>${await carriedDigest(program)}</code></dd></div>
</dl>
<p>One seed gives one result, to the last bit, on any machine, with any number of workers, from the command line or in a
browser. The scenario digest is over what the scenario resolves to; the result digest is over every figure of every drive;
the engine’s is over the program text that this file carries, the same in every report of one build.
The file holds no date and no name of a machine: the same inputs give the same report.</p>
<p>With <a download="scenario.json" href="data:application/json;base64,${toBase64(new TextEncoder().encode(inertJson(report.scenarioText)))}">the scenario that this file carries</a>
saved as <code>scenario.json</code>, and the program in the version above (a pack written by <code>--pack</code> holds it):</p>
<pre>${reproduceLines(report).map(
			(line) => html`<code>${unbroken(line)}
</code>`,
		)}</pre>
<p>The first must print the scenario and result digests above, each other one the digest under its own heading; then every figure is the same.</p>
${failures.length > 0 && failureList(failures)}
<div id="again">
<h3>Compute it again in this file</h3>
<p>This file carries its scenario and the program’s engine as plain text, which nothing runs until a reader asks for it.
In a browser with scripts there is a button here: it has every figure computed again, on the reader’s computer and without a network, and says whether every digit is the same.
What is compared: every figure that the file carries, those that its charts are drawn from among them, and this page sign by sign, with every table, sentence and waveform, as it follows from the figures computed again.
What is not: the four charts of each operating point as they are drawn, for which the file would have to carry a drawing library.
<span class="no-script">Here scripts do not run, so there is no button; all figures can be read all the same.</span></p>
</div>`,
	);
}

/** A line whose options break over lines of print between them only: a hyphen at a line's end would be taken for one of theirs. */
const unbroken = (line: string): Markup => {
	const [command, ...options] = line.split(/ (?=--\w+ )/);
	return html`${command}${options.map((option) => html` <span>${option}</span>`)}`;
};

const failureList = (failures: readonly { readonly unit: number; readonly message: string }[]): Markup => html`
<p>Drives that could not be simulated${failures.length > failuresShown && html`, the first ${failuresShown} of ${count(failures.length)}`}:</p>
<ul>${failures.slice(0, failuresShown).map(({ unit, message }) => html`<li>drive ${unit}: ${message}</li>`)}</ul>`;
