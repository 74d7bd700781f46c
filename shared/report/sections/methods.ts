import { capital } from '../../words/capital.ts';
import { levelWords } from '../../words/level.ts';
import { html, type Markup } from '../html.ts';
import type { Calculation, CalculationName, Report } from '../report.ts';
import { type Section, section } from '../section.ts';

const titles: Readonly<Record<CalculationName, string>> = {
	study: 'The study',
	envelope: 'Envelope',
	origins: 'Origins of the spread',
	budgets: 'Budgets',
	grades: 'Grades',
	weakest: 'Likeliest failing drive',
};

/** Calculations whose result is a verdict on the requirement. */
const judges: readonly CalculationName[] = ['study', 'envelope', 'grades', 'weakest'];

/** How every figure and interval came about, at what level, and what checks the program itself has passed. */
export function methods(report: Report): Section {
	const seen = new Set<CalculationName>();
	const kinds = report.calculations.filter(({ name }) => !seen.has(name) && seen.add(name));
	return section(
		'methods',
		'Methods, levels of confidence, verification',
		html`${kinds.map(methodList)}
<h3>The program’s own verification</h3>
<p>${report.modelChecks ?? html`The numerical checks of this version against published and independent values were <strong>not run for this report</strong>. The program’s sources run them with <code>npm run check-model</code>.`}</p>`,
	);
}

const methodList = ({ name, result }: Calculation): Markup => html`
<h3>${titles[name]}</h3>
<dl class="methods">
<div><dt>Level of confidence</dt><dd>${levelWords(result.provenance.level)} for every interval, two-sided unless said otherwise${judges.includes(name) && '; a verdict’s own confidence is the requirement’s'}.</dd></div>
${Object.entries(result.provenance.methods).map(([figure, method]) => html`<div><dt>${capital(figure)}</dt><dd>${capital(method)}.</dd></div>`)}
</dl>`;
