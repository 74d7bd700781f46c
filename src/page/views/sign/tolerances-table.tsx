import type { SignModel } from '../../model/sign/sign.ts';
import { WideTable } from '../../parts/wide-table.tsx';

/** Every part that varies; guesses come first and say so in more than colour. */
export function TolerancesTable({ rows }: { rows: NonNullable<SignModel['answer']['value']>['tolerances'] }) {
	if (rows.length === 0) return null;
	return (
		<WideTable what="tolerances and where they come from" class="tolerances">
			<thead>
				<tr>
					<th scope="col">Part</th>
					<th scope="col">nominal</th>
					<th scope="col">lot ±</th>
					<th scope="col">mismatch ±</th>
					<th scope="col" class="words">
						distribution
					</th>
					<th scope="col" class="words">
						basis
					</th>
				</tr>
			</thead>
			<tbody>
				{rows.map(({ id, name, nominal, lot, mismatch, spread, basis }) => (
					<tr key={id} class={basis === 'assumed' ? 'guess' : ''}>
						<th scope="row">{name}</th>
						<td>{nominal}</td>
						<td>{lot}</td>
						<td>{mismatch}</td>
						<td class="words">{spread}</td>
						<td class="words">{basis === 'assumed' ? <strong>assumed</strong> : basis}</td>
					</tr>
				))}
			</tbody>
		</WideTable>
	);
}
