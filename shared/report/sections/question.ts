import { stoppedWords } from '../../study/stopping-sentence.ts';
import { count } from '../../words/figures.ts';
import { type Content, html } from '../html.ts';
import { type Report, studyOf } from '../report.ts';
import { type Section, section } from '../section.ts';

/** What was asked, of what, and how. */
export function question(report: Report): Section {
	const { scenario } = report;
	const { result } = studyOf(report);
	const { units } = result.provenance;
	const starts = Number(scenario.values['trial.starts']);
	const measured = Number(scenario.values['trial.measured']);
	const points = scenario.points.length;
	const stopped = stoppedWords(result);
	const content: Content = html`
<p>A sensorless brushless DC drive in six-step commutation finds its rotor by the zero crossings of the open phase's
back-EMF. They can be seen by comparing the divided terminal with half the bus (<em>half-bus</em>) or with a star point
made of three resistors (<em>virtual neutral</em>). Parts have tolerances, so no two drives built alike commutate alike.</p>
<p><strong>Does the drive “${scenario.name}” meet its requirement in production with either way of sensing, and
which is better, by how much?</strong></p>
<p>${result.requirement.sentence}</p>
<p>${count(units.asked)} drives were drawn from the tolerances listed below. Each was simulated from ${count(starts)}
${starts === 1 ? 'start' : 'starts'} of ${count(measured)} measured sectors at each of ${count(points)} operating
${points === 1 ? 'point' : 'points'}, with both choices on the same parts, moments and noise.
${count(units.finished)} finished and ${count(units.failed)} could not be simulated${units.failed > 0 ? ' (they count against the verdict and are listed under “How to reproduce it”)' : ''}.
${stopped}</p>
${scenario.lesson && html`<p class="aside">What the scenario says of itself: ${scenario.lesson}</p>`}
${scenario.invented && html`<p class="warning"><strong>The scenario says that this drive was made up</strong> to teach something. It is no product.</p>`}`;
	return section('question', 'The question', content);
}
