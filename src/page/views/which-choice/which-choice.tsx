import type { PageModel } from '../../model/page-model.ts';
import { isSimulating } from '../../model/run-status.ts';
import { Cautions } from '../cautions.tsx';
import { Reservations } from '../reservations.tsx';
import { Answer } from './answer.tsx';
import { Causes } from './causes.tsx';
import { Differences } from './differences.tsx';
import { Errors } from './errors.tsx';
import { Figures } from './figures.tsx';
import { PointPanel } from './point-panel.tsx';
import { PointTabs } from './point-tabs.tsx';
import { Provenance } from './provenance.tsx';
import { Rates } from './rates.tsx';
import { Sectors } from './sectors.tsx';

/** Which sensing choice, and by how much: the answer over all points, then one point's, its pictures, and what they rest on. */
export function WhichChoice({ model }: { model: PageModel }) {
	const { answer, reservations, provenance } = model.whichChoice;
	const given = answer.value;
	return (
		<>
			<section class="overall" aria-labelledby="question">
				<h2 id="question">Which sensing choice, and by how much?</h2>
				<p class="sentence">{given ? given.overall : <Waiting model={model} />}</p>
				<Reservations words={[...reservations.value, ...(provenance.value?.cautions ?? [])]} />
				<Cautions />
			</section>
			{given && (
				<>
					<PointTabs model={model} />
					<PointPanel model={model} class="panel">
						<Answer answer={given} />
						<Errors answer={given} model={model} />
						<Differences answer={given} />
						<Figures answer={given} />
						<Rates answer={given} />
						<Causes answer={given} />
						<Sectors answer={given} />
					</PointPanel>
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
			{isSimulating(model.state.value)
				? `Building drives of “${model.scenario.value?.name}” and running each with both sensing choices …`
				: 'Nothing has been simulated yet.'}
		</span>
	);
}
