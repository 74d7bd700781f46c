import type { PageModel } from '../../model/page-model.ts';
import { FailedDrives, RestsOn, Terms } from '../../parts/rests-on.tsx';

/** What makes the figures reproducible: seed, digests, version, units, methods; and every failed drive. */
export function Provenance({ model }: { model: PageModel }) {
	const provenance = model.whichChoice.provenance.value;
	if (!provenance) return null;
	const conditions = model.whichChoice.answer.value?.conditions ?? [];
	return (
		<RestsOn rows={provenance.rows}>
			<h4>Conditions at this operating point</h4>
			<Terms rows={conditions.map(({ name, value }) => [name, value])} />
			<FailedDrives failures={provenance.failures} />
		</RestsOn>
	);
}
