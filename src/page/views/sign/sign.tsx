import '../../style/sign.css';
import type { PageModel } from '../../model/page-model.ts';
import { createSign } from '../../model/sign/sign.ts';
import { Chart } from '../../parts/chart.tsx';
import { KeyedSection } from '../../parts/keyed-section.tsx';
import { FailedDrives, RestsOn } from '../../parts/rests-on.tsx';
import { Cautions } from '../cautions.tsx';
import { SaveReport } from '../report/save-report.tsx';
import { Reservations } from '../reservations.tsx';
import { PointsTable } from './points-table.tsx';
import { TolerancesTable } from './tolerances-table.tsx';
import { Verdicts } from './verdicts.tsx';

/** What would be signed: the verdict on either choice, what it leans on, and how anyone gets it again. */
export function SignView({ model }: { model: PageModel }) {
	const sign = model.part('sign', () => createSign(model));
	const answer = sign.answer.value;
	return (
		<>
			<section class="overall" aria-labelledby="question">
				<h2 id="question">What do we sign?</h2>
				<p class="sentence">
					{answer ? answer.sentence : <span class="waiting">Nothing has been simulated yet.</span>}
				</p>
				{answer && <p class="rest">{answer.requirement}</p>}
				<Reservations words={answer?.reservations ?? []} />
				{sign.isStale.value && (
					<p class="buttons controls">
						<button type="button" disabled={!sign.canRun.value} onClick={() => void model.run()}>
							Run again with the inputs as they are
						</button>
					</p>
				)}
				<Cautions />
				{answer && answer.cautions.length > 0 && (
					<ul class="sign-cautions" aria-label="Cautions on this scenario">
						{answer.cautions.map((words) => (
							<li key={words} class="reservation">
								{words}
							</li>
						))}
					</ul>
				)}
			</section>
			<div class="sign-panel">
				{answer && <Verdicts answer={answer} />}
				<SaveReport model={model} />
				{answer && (
					<>
						<KeyedSection hasGhost={answer.hasGhost} id="deciding-title" title="Where drives fail">
							{answer.deciding.map((words) => (
								<p key={words}>{words}</p>
							))}
							<Chart
								caption="Drives that fail, with one-sided limits, against what may fail"
								saveAs="failing-shares"
								picture={answer.picture}
							/>
							<p class="aside">An open mark on a dotted line: none failed; it stands at the upper limit.</p>
							<PointsTable points={answer.points} />
						</KeyedSection>
						<section aria-labelledby="assumed-title">
							<h3 id="assumed-title">What was assumed</h3>
							<p>{answer.assumed}</p>
							<TolerancesTable rows={answer.tolerances} />
						</section>
						<RestsOn rows={answer.rests.rows}>
							<FailedDrives failures={answer.rests.failures} />
							<h4>To get the same figures again</h4>
							<pre class="reproduce">{answer.reproduce.line}</pre>
							<p class="aside">{answer.reproduce.note}</p>
						</RestsOn>
					</>
				)}
			</div>
		</>
	);
}
