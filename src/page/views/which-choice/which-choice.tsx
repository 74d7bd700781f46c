import type { PageModel } from '../../model/page-model.ts';
import { Cautions } from '../cautions.tsx';
import { Answer } from './answer.tsx';
import { Causes } from './causes.tsx';
import { Errors } from './errors.tsx';
import { Figures } from './figures.tsx';
import { PointTabs } from './point-tabs.tsx';
import { Provenance } from './provenance.tsx';
import { Rates } from './rates.tsx';
import { Sectors } from './sectors.tsx';

/** Which sensing choice, and by how much: the answer over all points, then one point's, its pictures, and what they rest on. */
export function WhichChoice({ model }: { model: PageModel }) {
	const { answer, reservations, provenance, pointIndex } = model.whichChoice;
	const given = answer.value;
	return (
		<>
			<section class="overall" aria-labelledby="question">
				<h2 id="question">Which sensing choice, and by how much?</h2>
				<p class="sentence">{given ? given.overall : <Waiting model={model} />}</p>
				{reservations.value.map((words) => (
					<p key={words} class="reservation">
						{words}
					</p>
				))}
				{provenance.value?.warnings.map((warning) => (
					<p key={warning} class="reservation">
						{warning}
					</p>
				))}
				<Cautions />
			</section>
			{given && (
				<>
					<PointTabs model={model} />
					<div class="panel" role="tabpanel" id="point-panel" aria-labelledby={`point-${pointIndex.value}`}>
						<Answer answer={given} />
						<Errors answer={given} model={model} />
						<Figures answer={given} />
						<Rates answer={given} />
						<Causes answer={given} />
						<Sectors answer={given} />
					</div>
					<Provenance model={model} />
				</>
			)}
		</>
	);
}

/** Before the first figures: what is being worked out. */
function Waiting({ model }: { model: PageModel }) {
	return (
		<span class="waiting">
			{model.status.value.state === 'running'
				? `Building drives of “${model.scenario.value?.name}” and running each with both sensing choices …`
				: 'Nothing has been simulated yet.'}
		</span>
	);
}
