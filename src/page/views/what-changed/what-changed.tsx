import { useEffect } from 'preact/hooks';
import type { PageModel } from '../../model/page-model.ts';
import { createWhatChanged } from '../../model/what-changed.ts';
import { Cautions } from '../cautions.tsx';
import { Reservations } from '../reservations.tsx';
import { PointPanel } from '../which-choice/point-panel.tsx';
import { PointTabs } from '../which-choice/point-tabs.tsx';
import { AttributionTables } from './attribution-tables.tsx';
import { Everywhere } from './everywhere.tsx';
import { HeadlineTable } from './headline-table.tsx';

/** What changed since the pinned result, and what each edit had to do with it. */
export function WhatChanged({ model }: { model: PageModel }) {
	const part = model.part('what-changed', () => createWhatChanged(model));
	useEffect(() => {
		part.setOpen(true);
		return () => part.setOpen(false);
	}, []);
	const answer = part.answer.value;
	const edits = part.edits.value;
	const { baseline } = model.against;
	return (
		<>
			<section class="overall" aria-labelledby="question">
				<h2 id="question">What changed, and why?</h2>
				<p class="sentence">{answer ? answer.lead : <span class="waiting">{waitingWords(model)}</span>}</p>
				{answer && <p class="basis">{answer.basis}</p>}
				<Reservations words={model.whichChoice.reservations.value} />
				<Cautions />
			</section>
			{edits.length > 0 && baseline.value && (
				<section class="edits" aria-labelledby="edits-title">
					<h3 id="edits-title">{edits.length === 1 ? 'One edit' : `${edits.length} edits`} since the baseline</h3>
					<ul>
						{edits.map(({ key, name, before, after }) => (
							<li key={key}>
								<strong>{name}</strong> {before} → {after}
							</li>
						))}
					</ul>
				</section>
			)}
			{answer && (
				<>
					<PointTabs model={model} />
					<PointPanel model={model} class="change-panel">
						<HeadlineTable headlines={answer.headlines} />
						<AttributionTables attributing={part.attributing.value} />
						<Everywhere rows={part.everywhere.value} />
					</PointPanel>
				</>
			)}
		</>
	);
}

function waitingWords(model: PageModel): string {
	const { baseline, isBaseline } = model.against;
	if (!baseline.value)
		return 'No result is pinned. Pin one as the baseline, edit an input, and what changed is shown here.';
	if (isBaseline.value) return 'The baseline itself is on show. Edit an input, and what changed is shown here.';
	return 'Being worked out …';
}
