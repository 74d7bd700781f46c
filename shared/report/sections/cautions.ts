import { cautionsOf } from '../../study/doubts.ts';
import { html } from '../html.ts';
import type { Report } from '../report.ts';
import { type Section, section } from '../section.ts';

/** What must be minded before anything is built or signed on these figures. */
export function cautions({ calculations }: Report): Section {
	const doubts = [...new Set(calculations.flatMap(({ result }) => cautionsOf(result.provenance)))];
	return section(
		'cautions',
		'Cautions',
		html`
<ul class="cautions">
<li><strong>All results are simulated estimates.</strong> An interval says what the number of simulated drives leaves open; it says nothing of what the model leaves out.</li>
<li><strong>Bus voltages and rotating parts are dangerous.</strong> They can kill and maim also with the supply switched off: capacitors stay charged, and a turning motor makes voltage.</li>
<li><strong>Local codes, measurement on real hardware and qualified practice decide</strong>, not this report.</li>
${doubts.map((doubt) => html`<li>${doubt}</li>`)}
</ul>
<div class="signing">
<h3>Decision of the review</h3>
<div class="sign-off">
<p>Sensing that is released, if any</p><p>Decision and conditions</p><p>Reviewed by</p><p>Date and signature</p>
</div>
</div>`,
	);
}
