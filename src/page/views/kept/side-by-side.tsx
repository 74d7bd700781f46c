import { keepUnits } from '../../../../shared/words/keep-units.ts';
import type { ComparedRow } from '../../model/kept/compare.ts';
import type { Kept } from '../../model/kept/kept.ts';
import { momentWords } from '../../parts/moment-words.ts';

/** Two kept results, what was asked otherwise and what came of it. */
export function SideBySide({ kept }: { kept: Kept }) {
	const found = kept.comparison.value;
	if (!found) {
		return kept.records.value.length > 1 ? <p class="aside">Tick two kept results to lay them side by side.</p> : null;
	}
	const { first, second, asked, points, aside } = found;
	return (
		<section class="side-by-side" aria-labelledby="side-title">
			<h3 id="side-title">Side by side</h3>
			<p class="aside">{aside}</p>
			<section class="scroll" aria-label="Two results side by side">
				<table>
					<thead>
						<tr>
							<td />
							{[first, second].map(({ id, name, keptAt }) => (
								<th key={id} scope="col">
									{keepUnits(name)}
									<small>kept {momentWords(keptAt)}</small>
								</th>
							))}
						</tr>
					</thead>
					<Rows title="What was asked" rows={asked} empty="Both were asked the same." />
					{points.map(({ name, rows }) => (
						<Rows key={name} title={`At ${name}`} rows={rows} empty="" />
					))}
				</table>
			</section>
		</section>
	);
}

function Rows({ title, rows, empty }: { title: string; rows: readonly ComparedRow[]; empty: string }) {
	return (
		<tbody>
			<tr class="group">
				<th scope="rowgroup" colSpan={3}>
					{title}
				</th>
			</tr>
			{rows.length === 0 && (
				<tr>
					<td colSpan={3}>{empty}</td>
				</tr>
			)}
			{rows.map(({ name, first, second }) => (
				<tr key={name} class={first === second ? 'same' : undefined}>
					<th scope="row">{name}</th>
					<td>{first}</td>
					<td>{second}</td>
				</tr>
			))}
		</tbody>
	);
}
