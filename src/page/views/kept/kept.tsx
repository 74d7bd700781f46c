import '../../style/kept.css';
import { keptStore } from '../../kept-store.ts';
import { createKept, type Kept } from '../../model/kept/kept.ts';
import type { PageModel } from '../../model/page-model.ts';
import { Cautions } from '../cautions.tsx';
import { SaveReport } from '../report/save-report.tsx';
import { KeepForm } from './keep-form.tsx';
import { KeptList } from './kept-list.tsx';
import { ShareLink } from './share-link.tsx';
import { SideBySide } from './side-by-side.tsx';

/** What do we keep: a link to the inputs, results kept in this browser, two of them side by side. */
export function KeptView({ model }: { model: PageModel }) {
	const kept = model.part('kept', (): Kept => createKept(model, keptStore()));
	const { problem, said, records } = kept;
	return (
		<>
			<section class="overall" aria-labelledby="question">
				<h2 id="question">What do we keep, and with whom do we share it?</h2>
				<p class="sentence">
					{records.value.length === 0
						? 'Nothing is kept in this browser yet.'
						: `${records.value.length === 1 ? 'One result is' : `${records.value.length} results are`} kept in this browser.`}{' '}
					Nothing is sent anywhere: what is kept stays here, and a link carries its scenario in itself.
				</p>
				{problem.value && (
					<p class="problem" role="alert">
						{problem.value}
					</p>
				)}
				<p class="said" role="status">
					{said.value}
				</p>
				<Cautions />
			</section>
			<div class="keep-and-share">
				<KeepForm kept={kept} />
				<ShareLink kept={kept} model={model} />
				<SaveReport model={model} />
			</div>
			<KeptList kept={kept} model={model} />
			<SideBySide kept={kept} />
		</>
	);
}
