import type { PageModel } from '../../model/page-model.ts';

/** What makes the figures reproducible: seed, digests, version, units, methods; and every failed drive. */
export function Provenance({ model }: { model: PageModel }) {
	const provenance = model.whichChoice.provenance.value;
	if (!provenance) return null;
	return (
		<section class="provenance" aria-labelledby="provenance-title">
			<h3 id="provenance-title">What these figures rest on</h3>
			<dl>
				{provenance.rows.map(([term, words]) => (
					<div key={term}>
						<dt>{term}</dt>
						<dd>{words}</dd>
					</div>
				))}
			</dl>
			<h4>Conditions at this operating point</h4>
			<dl>
				{model.whichChoice.answer.value?.conditions.map(({ id, name, value }) => (
					<div key={id}>
						<dt>{name}</dt>
						<dd>{value}</dd>
					</div>
				))}
			</dl>
			{provenance.failures.length > 0 && (
				<details open>
					<summary>Drives that could not be simulated</summary>
					<ul>
						{provenance.failures.map(({ unit, message }) => (
							<li key={unit}>
								drive {unit}: {message}
							</li>
						))}
					</ul>
				</details>
			)}
		</section>
	);
}
